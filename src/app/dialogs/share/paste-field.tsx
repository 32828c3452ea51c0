import { useId, useState } from "react";
import { openPasted } from "../../../exchange/share/open-link";
import { showDialog } from "../dialog-store";
import css from "./share.module.css";

/** Takes a link or code that came by mail or on paper, and opens it. */
export const PasteField = () => {
  const [text, setText] = useState("");
  const [trouble, setTrouble] = useState<string | null>(null);
  const id = useId();
  return (
    <form
      className={css.paste}
      onSubmit={(event) => {
        event.preventDefault();
        const why = openPasted(text);
        setTrouble(why);
        if (why === null) showDialog(null);
      }}
    >
      <label htmlFor={id}>Open a link or code that you were given</label>
      <div className={css.row}>
        <input
          id={id}
          type="text"
          autoComplete="off"
          spellCheck={false}
          value={text}
          aria-invalid={trouble !== null || undefined}
          aria-describedby={trouble ? `${id}-why` : undefined}
          onChange={(event) => {
            setText(event.target.value);
            setTrouble(null);
          }}
        />
        <button type="submit">Open it</button>
      </div>
      {trouble ? (
        <p id={`${id}-why`} role="alert" className={css.trouble}>
          {trouble}
        </p>
      ) : null}
    </form>
  );
};
