/** The structure of the drive as a tree to walk through: each part in words, Enter leads to it in the parts list. */
import { AsideHead } from "../aside-head";
import styles from "./structure.module.css";
import { StructureTree } from "./structure-tree";

export const StructurePanel = () => (
  <section className={styles.panel} aria-label="Structure of the drive">
    <AsideHead title="Structure" />
    <p className={styles.help} id="structure-help">
      Arrow keys walk, Enter leads to the parts list, A adds a stage, Delete removes.
    </p>
    <StructureTree />
  </section>
);
