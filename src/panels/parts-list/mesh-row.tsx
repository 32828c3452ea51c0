/** One mesh: which mate, at what angle, where the new shaft lies, what is lost in it. */
import { setMesh, swapSizes } from "../../engine/drive/commands/mesh";
import { removeMesh } from "../../engine/drive/commands/remove";
import { hasTeeth, type Mesh } from "../../engine/drive/types";
import { azimuthOf, clockFace, clockwiseOf, directionAt, placeWords } from "../../engine/explain/lies";
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { figuresIn, nameText, quantityIn, shaftName } from "../../engine/wording";
import { useDocument } from "../../store/document";
import { useUnits } from "../../store/units";
import { doEdit, tryEdit } from "../edit";
import { DirectionDial } from "../fields/direction-dial";
import { NumberField } from "../fields/number-field";
import { PartMenu } from "./part-menu";
import styles from "./parts-list.module.css";
import { useRow } from "./rows";

export function MeshRow({ mesh: index }: { readonly mesh: number }) {
  const mesh = useDocument((state) => state.solved.drive.meshes[index]);
  return mesh ? <MeshRowOf key={mesh.id} mesh={mesh} index={index} /> : null;
}

interface MeshProps {
  readonly mesh: Mesh;
  readonly index: number;
}

function MeshRowOf({ mesh, index }: MeshProps) {
  const row = useRow<HTMLLIElement>("mesh", mesh.id);
  const words = useDocument(({ solved }) => pairWords(solved, index));
  const kind = useDocument(({ solved }) => solved.placement.meshes[index]?.kind);
  const units = useUnits();
  const misfit = useDocument(({ solved }) => loopWords(solved, index, units));
  const isRubbed = useDocument(({ solved }) =>
    mesh.gears.some((id) => {
      const gear = solved.drive.gears[solved.index.gears.get(id) ?? -1];
      return gear !== undefined && !hasTeeth(gear);
    }),
  );
  const name = nameText(mesh.id);
  return (
    <li className={styles.part} data-mesh {...row}>
      <div className={styles.partHead}>
        <h4 className={styles.partName} title={`Mesh ${mesh.id}`}>
          <span className={styles.linkMark} aria-hidden>
            ⟷
          </span>{" "}
          {words}
          {kind ? <span className={styles.soft}>, {kind.words.name}</span> : null}
        </h4>
        <PartMenu
          label={`Commands for mesh ${name}`}
          items={[
            {
              words: "Swap sizes of the two gears",
              act: () => doEdit(swapSizes(mesh.id), `swap sizes at ${name}`, "Sizes swapped"),
            },
            {
              words: "Remove this mesh",
              act: () => doEdit(removeMesh(mesh.id), `remove ${name}`, `Mesh ${name} removed`),
              apart: true,
            },
          ]}
        />
      </div>
      {misfit ? <p className={styles.note}>{misfit}</p> : <LiesField mesh={mesh} index={index} />}
      <div className={styles.numbers}>
        {mesh.shaftAngle === undefined ? null : (
          <NumberField
            label={`Shaft angle of mesh ${name}`}
            shortLabel="shaft angle"
            hint="Between the two outward axes, more than 0° and less than 180° (shaftAngle)."
            value={mesh.shaftAngle}
            unit="°"
            least={0}
            above
            most={180}
            below
            width={5}
            onChange={(shaftAngle) => tryEdit(setMesh(mesh.id, { shaftAngle }), `shaft angle of ${name}`)}
          />
        )}
        <NumberField
          label={`Efficiency of mesh ${name}`}
          shortLabel="efficiency"
          hint="Power passed on over power taken in, as 0.97 or 97 %; 1 for no losses (efficiency)."
          value={mesh.efficiency}
          least={0}
          above
          most={1}
          step={0.01}
          width={5}
          onChange={(efficiency) => tryEdit(setMesh(mesh.id, { efficiency }), `efficiency of ${name}`)}
        />
        {isRubbed ? <FrictionFields mesh={mesh} name={name} /> : null}
      </div>
      <UsualEfficiency mesh={mesh} index={index} name={name} />
    </li>
  );
}

/** "a1 on Motor with b1 on Cross shaft" */
function pairWords({ drive, index }: Solved, mesh: number): string {
  const gears = index.gearsOfMesh[mesh];
  const shafts = index.shaftsOfMesh[mesh];
  if (!gears || !shafts) return "";
  const side = (i: 0 | 1) => `${nameText(drive.gears[gears[i]]?.id ?? "")} on ${shaftName(drive, shafts[i])}`;
  return `${side(0)} with ${side(1)}`;
}

function loopWords({ placement }: Solved, mesh: number, units: UnitChoice): string | null {
  const placed = placement.meshes[mesh];
  if (!placed) return "Not placed: no chain of meshes leads here from a shaft with a place of its own.";
  if (!placed.closesLoop) return null;
  const { millimetres, degrees } = placed.misfit;
  if (millimetres === 0 && degrees === 0) return "Closes a loop: it fits.";
  const few = { ...units, figures: 3 } as const;
  return `Closes a loop: off by ${quantityIn(millimetres, "mm", few)} and ${quantityIn(degrees, "°", few)}.`;
}

function LiesField({ mesh, index }: MeshProps) {
  const solved = useDocument((state) => state.solved);
  const shafts = solved.index.shaftsOfMesh[index];
  const near = shafts?.find((shaft) => solved.placement.shafts[shaft]?.placedBy !== mesh.id);
  const far = shafts?.find((shaft) => shaft !== near);
  const placed = near === undefined ? null : solved.placement.shafts[near];
  if (near === undefined || far === undefined || !placed) return null;
  const face = clockFace(solved, near, placed);
  const direction = directionAt(placed, mesh.azimuth);
  const [nearName, farName] = [shaftName(solved.drive, near), shaftName(solved.drive, far)];
  const set = (azimuth: number) => tryEdit(setMesh(mesh.id, { azimuth }), `place of ${farName}`);
  return (
    <div className={styles.lies}>
      <DirectionDial
        label={`Where ${farName} lies round ${nearName}, on a clock face seen from the ${face.endName}`}
        clockwise={clockwiseOf(face, direction)}
        words={placeWords(direction)}
        onChange={(clockwise) => set(azimuthOf(face, placed, clockwise))}
      />
      <div>
        <p>
          {farName} lies <b>{placeWords(direction)}</b>
        </p>
        <p className={styles.soft}>dial seen from the {face.endName}</p>
        <NumberField
          label={`Direction of ${farName} round ${nearName}`}
          shortLabel="direction"
          hint={`Degrees round ${nearName}, right-handed about its positive axis from its reference (azimuth).`}
          value={mesh.azimuth}
          unit="°"
          step={5}
          width={5}
          onChange={set}
        />
      </div>
    </div>
  );
}

function FrictionFields({ mesh, name }: { readonly mesh: Mesh; readonly name: string }) {
  return (
    <>
      <NumberField
        label={`Pressing force at mesh ${name}`}
        shortLabel="pressed with"
        hint="Force that presses the two together (normalForce); empty where it isn't known."
        value={mesh.normalForce ?? null}
        unit="N"
        least={0}
        step={10}
        width={5}
        placeholder="–"
        onChange={(normalForce) => tryEdit(setMesh(mesh.id, { normalForce }), `pressing force of ${name}`)}
        onClear={() => tryEdit(setMesh(mesh.id, { normalForce: undefined }), `pressing force of ${name}`)}
      />
      <NumberField
        label={`Friction coefficient at mesh ${name}`}
        shortLabel="friction"
        hint="Coefficient of friction: the most rim force over the pressing force (friction)."
        value={mesh.friction ?? null}
        least={0}
        step={0.05}
        width={5}
        placeholder="–"
        onChange={(friction) => tryEdit(setMesh(mesh.id, { friction }), `friction of ${name}`)}
        onClear={() => tryEdit(setMesh(mesh.id, { friction: undefined }), `friction of ${name}`)}
      />
    </>
  );
}

/** The usual efficiency of this kind of pair: offered with its source, taken only when asked for. */
function UsualEfficiency({ mesh, index, name }: MeshProps & { readonly name: string }) {
  const kind = useDocument(({ solved }) => solved.placement.meshes[index]?.kind);
  const units = useUnits();
  const usual = kind?.words.usualEfficiency;
  if (!kind || !usual || mesh.efficiency === usual.value) return null;
  return (
    <p className={styles.offer}>
      <button
        type="button"
        className={styles.button}
        aria-label={`Use ${usual.value}, the usual efficiency, at mesh ${name}`}
        onClick={() => doEdit(setMesh(mesh.id, { efficiency: usual.value }), `efficiency of ${name}`)}
      >
        Use {figuresIn(usual.value, units)}
      </button>{" "}
      usual for {kind.words.name} ({usual.source})
    </p>
  );
}
