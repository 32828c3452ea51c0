/** The commands of one part, behind a button with three dots. The menu comes at the first sign of a press. */
import { Ellipsis } from "lucide-react";
import { useState } from "react";
import { hush, refusalStore } from "../edit";
import type { PartMenuProps } from "./part-menu-props";
import styles from "./parts-list.module.css";

type Openable = typeof import("./openable-part-menu")["OpenablePartMenu"];

const fetchMenu = async (): Promise<Openable> => (await import("./openable-part-menu")).OpenablePartMenu;

/** Whether it comes is told when it is pressed. */
const fetchAhead = (): void => {
  fetchMenu().catch(() => undefined);
};

/** The same element each time: React leaves it alone. */
const DOTS = <Ellipsis size={20} aria-hidden />;

const NOT_LOADED = "The menu could not be loaded; press its button to try again.";

export function PartMenu({ label, items }: PartMenuProps) {
  const [Openable, setOpenable] = useState<Openable | null>(null);
  const [isComing, setComing] = useState(false);
  /** Whether the press was one of a key, which leads on to the first item. */
  const [byKey, setByKey] = useState(false);
  if (Openable) return <Openable label={label} items={items} byKey={byKey} />;
  return (
    <button
      type="button"
      className={styles.icon}
      aria-label={label}
      aria-haspopup="menu"
      aria-expanded={false}
      aria-busy={isComing || undefined}
      title={label}
      onPointerEnter={fetchAhead}
      onFocus={fetchAhead}
      onClick={({ detail }) => {
        setByKey(detail === 0);
        setComing(true);
        fetchMenu().then(
          (loaded) => {
            if (refusalStore.getState().sentence === NOT_LOADED) hush();
            setOpenable(() => loaded);
          },
          () => {
            setComing(false);
            refusalStore.setState({ sentence: NOT_LOADED });
          },
        );
      }}
    >
      {DOTS}
    </button>
  );
}
