/** The commands of one part, behind a button with three dots. The menu itself comes with the first press on any of them. */
import { Ellipsis } from "lucide-react";
import { useState } from "react";
import { announce } from "../../store/view";
import styles from "./parts-list.module.css";

export interface MenuItem {
  readonly words: string;
  readonly act: () => void;
  /** Set apart from the items before it: what takes something away. */
  readonly apart?: boolean;
  /** What `act` focuses itself keeps the focus; otherwise it goes back to the button. */
  readonly keepsFocus?: boolean;
}

export interface PartMenuProps {
  readonly label: string;
  readonly items: readonly MenuItem[];
}

type Openable = typeof import("./openable-part-menu")["OpenablePartMenu"];

export function PartMenu({ label, items }: PartMenuProps) {
  const [Openable, setOpenable] = useState<Openable | null>(null);
  if (Openable) return <Openable label={label} items={items} startsOpen />;
  return (
    <button
      type="button"
      className={styles.icon}
      aria-label={label}
      aria-haspopup="menu"
      aria-expanded={false}
      title={label}
      onClick={() => {
        import("./openable-part-menu").then(
          (loaded) => setOpenable(() => loaded.OpenablePartMenu),
          () => announce("The menu could not be loaded. Try again."),
        );
      }}
    >
      <Ellipsis size={20} aria-hidden />
    </button>
  );
}
