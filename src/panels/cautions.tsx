/** One line wherever torque, forces or power show, with the usual cautions behind it. */
import { TriangleAlert } from "lucide-react";
import { useId, useRef } from "react";
import { CAUTIONS } from "./caution-words";
import styles from "./cautions.module.css";

export function Cautions() {
  const id = useId();
  const box = useRef<HTMLElement>(null);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape reaches the button and the box alike; not every browser heeds it by itself.
    <div
      className={styles.line}
      onKeyDown={(event) => {
        if (event.key === "Escape") box.current?.hidePopover?.();
      }}
    >
      A sketch, not a rating.{" "}
      <button type="button" className={styles.open} popoverTarget={id}>
        <TriangleAlert size={16} aria-hidden /> Cautions
      </button>
      {/* The browser's own popover: a press beside it closes it, and the focus stays or goes back. */}
      <section ref={box} id={id} popover="auto" className={styles.box} aria-label="Cautions">
        <ul>
          {CAUTIONS.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
        <button type="button" className={styles.close} popoverTarget={id} popoverTargetAction="hide">
          Close
        </button>
      </section>
    </div>
  );
}
