/** The forces at some meshes, gear by gear, with what each number means. */
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { gearName, nameText, quantityIn } from "../../engine/wording";
import { useDocument } from "../../store/document";
import { useUnits } from "../../store/units";
import { Cautions } from "../cautions";
import styles from "./workings.module.css";

/** Meshes listed. */
const MOST_MESHES = 12;

const force = (value: number | null | undefined, units: UnitChoice): string =>
  value === null || value === undefined ? "–" : quantityIn(value, "N", units);

export function MeshForces({ meshes }: { readonly meshes: readonly number[] }) {
  const solved = useDocument((state) => state.solved);
  const units = useUnits();
  const carried = meshes.slice(0, MOST_MESHES).filter((mesh) => solved.load.meshes[mesh]?.tangentialForce != null);
  if (carried.length === 0) return null;
  const atMean = carried.some((mesh) => solved.placement.meshes[mesh]?.kind.needsShaftAngle);
  return (
    <section className={styles.forces} aria-label="Forces at the meshes">
      <h4 className={styles.stepTitle}>Forces at the meshes</h4>
      <div className={styles.scroll}>
        <table>
          <thead>
            <tr>
              <th scope="col">gear</th>
              <th scope="col" title="Along the rim: what carries the torque.">
                tangential
              </th>
              <th scope="col" title="Towards the gear's own axis; minus pushes outward.">
                radial
              </th>
              <th
                scope="col"
                title="Along the gear's outward axis: away from the apex up to a pitch angle of 90°, towards it beyond."
              >
                axial
              </th>
            </tr>
          </thead>
          <tbody>{carried.flatMap((mesh) => [0, 1].map((side) => row(solved, mesh, side, units)))}</tbody>
        </table>
      </div>
      <p className={styles.soft}>
        Radial towards the gear's own axis, axial along its outward axis.
        {atMean ? " On bevel gears at the mean pitch radius, the middle of the face." : ""}
      </p>
      <Cautions />
    </section>
  );
}

function row(solved: Solved, mesh: number, side: number, units: UnitChoice) {
  const load = solved.load.meshes[mesh];
  const index = solved.index.gearsOfMesh[mesh]?.[side] ?? -1;
  const gear = solved.drive.gears[index];
  const id = solved.drive.meshes[mesh]?.id ?? "";
  if (!load || !gear) return null;
  return (
    <tr key={`${id} ${side}`}>
      <th scope="row" title={gearName(solved.drive, gear, solved.index.shaftOfGear[index] ?? 0, units)}>
        {nameText(gear.id)}
      </th>
      <td>{force(load.tangentialForce, units)}</td>
      <td>{force(load.radialForces?.[side], units)}</td>
      <td>{force(load.axialForces?.[side], units)}</td>
    </tr>
  );
}
