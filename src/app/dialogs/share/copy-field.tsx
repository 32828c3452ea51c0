import { Check, Copy } from "lucide-react";
import { useId, useRef, useState } from "react";
import { copyText } from "../../../store/clipboard";
import css from "./share.module.css";

/** By the old way, which also works on pages that came over plain http. */
const copySelected = (): boolean => {
  try {
    return document.execCommand("copy");
  } catch {
    return false;
  }
};

/** A text to hand on, how long it is, and a button that copies it. */
export const CopyField = ({ words, text }: { readonly words: string; readonly text: string }) => {
  const field = useRef<HTMLTextAreaElement>(null);
  const [outcome, setOutcome] = useState<"" | "copied" | "failed">("");
  const id = useId();

  const copy = async (): Promise<void> => {
    field.current?.select();
    setOutcome((await copyText(text)) || copySelected() ? "copied" : "failed");
  };

  return (
    <div className={css.field}>
      <label htmlFor={id}>{words}</label>
      <textarea
        id={id}
        ref={field}
        className={css.code}
        readOnly
        rows={5}
        spellCheck={false}
        value={text}
        aria-describedby={`${id}-length`}
        onFocus={(event) => event.currentTarget.select()}
      />
      <div className={css.row}>
        <span id={`${id}-length`}>{text.length.toLocaleString("en")} characters</span>
        <button type="button" className={css.strong} onClick={() => void copy()}>
          {outcome === "copied" ? <Check aria-hidden size={18} /> : <Copy aria-hidden size={18} />}
          Copy the {words.toLowerCase()}
        </button>
      </div>
      <p role="status" className={outcome === "failed" ? css.trouble : undefined}>
        {outcome === "copied" ? "Copied." : null}
        {outcome === "failed"
          ? "The browser does not let this page copy: the text is selected, copy it by hand."
          : null}
      </p>
    </div>
  );
};
