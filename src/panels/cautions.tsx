/** One line wherever torque, forces or power show, with the usual cautions behind it. */
import { TriangleAlert } from "lucide-react";
import { Popover } from "radix-ui";
import styles from "./cautions.module.css";

const CAUTIONS = [
  "Turnwise shows motion, ratio and torque without losses or with the losses you state. It is a sketching and teaching aid, not a rating to any standard.",
  "Guard meshing gears and turning shafts: where they run together they draw in fingers, hair and sleeves.",
  "Stop the drive and lock it out before you reach in.",
  "A model driven by power needs a guard and a supply of low torque.",
  "Printed gears shatter: keep faces and hands away from a loaded one.",
  "Ratings belong to the current gear standards and to a qualified engineer, and local codes rule.",
] as const;

export function Cautions() {
  return (
    <p className={styles.line}>
      A sketch, not a rating.{" "}
      <Popover.Root>
        <Popover.Trigger className={styles.open}>
          <TriangleAlert size={16} aria-hidden /> Cautions
        </Popover.Trigger>
        <Popover.Portal>
          <Popover.Content className={styles.box} collisionPadding={8} sideOffset={4} aria-label="Cautions">
            <ul>
              {CAUTIONS.map((caution) => (
                <li key={caution}>{caution}</li>
              ))}
            </ul>
            <Popover.Close className={styles.close}>Close</Popover.Close>
          </Popover.Content>
        </Popover.Portal>
      </Popover.Root>
    </p>
  );
}
