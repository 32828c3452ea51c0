/** What came of looking: on its way, why it can't be, or the changes. Told once to a screen reader. */
import type { ReactNode } from "react";
import styles from "./answers.module.css";

interface Props {
  readonly isAsked: boolean;
  readonly isFound: boolean;
  readonly cannot: string | null;
  readonly children: ReactNode;
}

export function Found({ isAsked, isFound, cannot, children }: Props) {
  return (
    <>
      <p className={cannot ? styles.cannot : styles.soft} role="status">
        {cannot ?? (isAsked && !isFound ? "Changes are being tried out." : "")}
      </p>
      {children}
    </>
  );
}
