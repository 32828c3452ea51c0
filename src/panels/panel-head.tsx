/** The head of a panel that stands beside the bench for a while: its title, and the way out. */
import { X } from "lucide-react";
import styles from "./panel-head.module.css";

interface HeadProps {
  readonly title: string;
  /** Of the title, for what it names. */
  readonly id?: string;
  /** What the button is called. */
  readonly closeName: string;
  readonly onClose: () => void;
}

export const PanelHead = ({ title, id, closeName, onClose }: HeadProps) => (
  <header className={styles.head}>
    <h2 id={id}>{title}</h2>
    <button type="button" className={styles.close} aria-label={closeName} title="Close (Escape)" onClick={onClose}>
      <X size={20} aria-hidden />
    </button>
  </header>
);
