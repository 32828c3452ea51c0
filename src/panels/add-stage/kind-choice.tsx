/** Which kind of stage: six big buttons, of which one is on. */
import { useId } from "react";
import type { MeshKind } from "../../engine/mesh-kinds/contract";
import { STAGE_KINDS } from "../../store/stage/stage-kinds";
import styles from "./add-stage.module.css";
import { StageIcon } from "./icons";

interface Props {
  readonly kind: MeshKind | null;
  readonly onChange: (kind: MeshKind) => void;
}

const GROUPS = ["Teeth", "Friction"] as const;

export function KindChoice({ kind, onChange }: Props) {
  const name = useId();
  return GROUPS.map((group) => (
    <fieldset key={group} className={styles.group}>
      <legend>{group}</legend>
      <div className={styles.kinds}>
        {STAGE_KINDS.filter((one) => one.group === group).map(({ mesh, words, heard, hint }) => (
          <label key={mesh.id} className={styles.kind} title={hint}>
            <input type="radio" name={name} value={mesh.id} checked={kind === mesh} onChange={() => onChange(mesh)} />
            <StageIcon kind={mesh.id} />
            <span>
              {words}
              {heard ? <span className="only-heard"> {heard}</span> : null}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  ));
}
