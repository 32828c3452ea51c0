/** The head of a panel that stands beside the bench for a while: its title, and the way back. */
import { X } from "lucide-react";
import { useEffect } from "react";
import { setView } from "../store/view";
import styles from "./aside-head.module.css";

export const leaveAside = (): void => setView({ aside: null });

export const AsideHead = ({ title }: { readonly title: string }) => {
  // The focus goes back to where it came from, once the panel has gone.
  useEffect(() => {
    const from = document.activeElement;
    return () => {
      setTimeout(() => {
        if (document.activeElement !== document.body && document.activeElement !== null) return;
        if (from instanceof HTMLElement && from !== document.body && from.isConnected) from.focus();
        if (document.activeElement === document.body) document.getElementById("bench")?.focus();
      });
    };
  }, []);
  return (
    <div className={styles.head}>
      <h2>{title}</h2>
      <button
        type="button"
        className={styles.close}
        aria-label={`Close ${title.toLowerCase()}`}
        title="Close (Escape)"
        onClick={leaveAside}
      >
        <X size={18} aria-hidden />
      </button>
    </div>
  );
};
