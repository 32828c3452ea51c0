import { FileDown } from "lucide-react";
import { useEffect, useState } from "react";
import { openFile } from "../exchange/open";
import css from "./drop-zone.module.css";

const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") ?? false;

/** A file can be dropped anywhere on the page; while one is held over it, the page says so. */
export const DropZone = () => {
  const [held, setHeld] = useState(false);

  useEffect(() => {
    const over = (event: DragEvent): void => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      setHeld(true);
    };
    const out = (event: DragEvent): void => {
      // Between two parts of the page there is a next one; only on leaving the window there is none.
      if (event.relatedTarget === null) setHeld(false);
    };
    const drop = (event: DragEvent): void => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      setHeld(false);
      const file = event.dataTransfer?.files[0];
      if (file) void openFile(file);
    };
    window.addEventListener("dragenter", over);
    window.addEventListener("dragover", over);
    window.addEventListener("dragleave", out);
    window.addEventListener("drop", drop);
    return () => {
      window.removeEventListener("dragenter", over);
      window.removeEventListener("dragover", over);
      window.removeEventListener("dragleave", out);
      window.removeEventListener("drop", drop);
    };
  }, []);

  if (!held) return null;
  return (
    <div className={css.zone}>
      <p>
        <FileDown aria-hidden size={28} /> Drop a drive file here to open it
      </p>
    </div>
  );
};
