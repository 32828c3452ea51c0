import { useEffect, useId, useRef, useState } from "react";
import { readAddress } from "../../../exchange/share/link";
import css from "./share.module.css";

interface Props {
  readonly kept: string | null;
  readonly onKeep: (address: string | null) => void;
}

const NO_ADDRESS = "This is no web address: it begins with https:// or http://, as in https://school.example/gears/.";

/** Asks once for the address at which a class opens Turnwise, and shows what was kept. */
export const ClassAddress = ({ kept, onKeep }: Props) => {
  const [text, setText] = useState("");
  const [wrong, setWrong] = useState(false);
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const change = useRef<HTMLButtonElement>(null);
  const shown = useRef(kept);

  // What had the focus has gone: it goes to what came in its place.
  useEffect(() => {
    if (shown.current !== kept) (kept === null ? field : change).current?.focus();
    shown.current = kept;
  }, [kept]);

  if (kept !== null) {
    return (
      <div className={css.row}>
        <span className={css.address}>{kept}</span>
        <button ref={change} type="button" onClick={() => onKeep(null)}>
          Change the address
        </button>
      </div>
    );
  }
  return (
    <form
      className={css.field}
      onSubmit={(event) => {
        event.preventDefault();
        const address = readAddress(text);
        setWrong(address === null);
        if (address !== null) onKeep(address);
      }}
    >
      <label htmlFor={id}>Address at which your class opens Turnwise, to make links from (kept in this browser)</label>
      <div className={css.row}>
        <input
          id={id}
          ref={field}
          type="text"
          inputMode="url"
          autoComplete="off"
          spellCheck={false}
          placeholder="https://school.example/gears/"
          value={text}
          aria-invalid={wrong || undefined}
          aria-describedby={wrong ? `${id}-why` : undefined}
          onChange={(event) => {
            setText(event.target.value);
            setWrong(false);
          }}
        />
        <button type="submit">Keep it</button>
      </div>
      {wrong ? (
        <p id={`${id}-why`} role="alert" className={css.trouble}>
          {NO_ADDRESS}
        </p>
      ) : null}
    </form>
  );
};
