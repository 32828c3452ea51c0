/** One shaft with all that stands on it: its name and place, what turns or loads it, its gears, the meshes that lead to it. */
import { ChevronDown, ChevronRight } from "lucide-react";
import { memo, useId, useRef } from "react";
import { duplicateStage } from "../../engine/drive/commands/duplicate";
import { removeShaft } from "../../engine/drive/commands/remove";
import { rename } from "../../engine/drive/commands/shaft";
import type { Shaft } from "../../engine/drive/types";
import { nameText, shaftName } from "../../engine/wording";
import { shaftColour } from "../../store/colours";
import { useDocument } from "../../store/document";
import { setView } from "../../store/view";
import { doEdit, tryEdit } from "../edit";
import { NameField } from "../fields/name-field";
import { GearRow } from "./gear-row";
import { MeshRow } from "./mesh-row";
import { PartMenu } from "./part-menu";
import styles from "./parts-list.module.css";
import { PlaceFold } from "./place-fold";
import { PortRow } from "./port-row";
import { useRow } from "./rows";

/** The same elements each time: React leaves them alone. */
const OPEN = <ChevronDown size={20} aria-hidden />;
const FOLDED = <ChevronRight size={20} aria-hidden />;

interface BlockProps {
  readonly shaft: number;
  readonly meshes: readonly number[];
  readonly open: boolean;
  readonly onFold: (shaft: string, open: boolean) => void;
}

export const ShaftBlock = memo(function ShaftBlock(props: BlockProps) {
  const shaft = useDocument((state) => state.solved.drive.shafts[props.shaft]);
  return shaft ? <ShaftBlockOf key={shaft.id} {...props} index={props.shaft} shaft={shaft} /> : null;
});

const numbersIn = (text: string): number[] => (text === "" ? [] : text.split(",").map(Number));

function ShaftBlockOf({
  shaft,
  index,
  meshes,
  open,
  onFold,
}: Omit<BlockProps, "shaft"> & { shaft: Shaft; index: number }) {
  const row = useRow<HTMLLIElement>("shaft", shaft.id);
  const name = useDocument(({ solved }) => (index < solved.drive.shafts.length ? shaftName(solved.drive, index) : ""));
  // As text: each solution lists them anew, and this block is only drawn again where they are others.
  const gears = useDocument(({ solved }) => (solved.index.gearsOfShaft[index] ?? []).join());
  const nameInput = useRef<HTMLInputElement | null>(null);
  const foldId = useId();
  const id = nameText(shaft.id);
  return (
    <li className={styles.shaft} style={{ borderInlineStartColor: shaftColour(index).variable }} {...row}>
      <div className={styles.shaftHead}>
        <button
          type="button"
          className={styles.icon}
          aria-expanded={open}
          aria-controls={foldId}
          aria-label={`All numbers of ${name}`}
          title={open ? "Fold this shaft" : "Unfold this shaft"}
          onClick={() => onFold(shaft.id, !open)}
        >
          {open ? OPEN : FOLDED}
        </button>
        <h3 className={styles.shaftName} title={`Shaft ${shaft.id}`}>
          <NameField
            label={`Name of shaft ${id}`}
            value={shaft.name}
            placeholder={id}
            inputRef={(element) => {
              nameInput.current = element;
            }}
            onChange={(next) => tryEdit(rename(shaft.id, next), `name of ${id}`)}
          />
        </h3>
        <PartMenu
          label={`Commands for shaft ${name}`}
          items={[
            { words: "Add a stage…", act: () => setView({ adding: { shaft: shaft.id } }) },
            { words: "Wishes…", act: () => setView({ asking: { kind: "wish", shaft: shaft.id } }) },
            { words: "Join with…", act: () => setView({ asking: { kind: "join", shaft: shaft.id } }) },
            ...(shaft.frame === undefined
              ? []
              : [
                  {
                    words: "Repeat round the carrier…",
                    act: () => setView({ asking: { kind: "repeat", shaft: shaft.id } }),
                  },
                ]),
            { words: "Rename", act: () => nameInput.current?.select(), keepsFocus: true },
            {
              words: "Duplicate this stage",
              act: () => doEdit(duplicateStage(shaft.id), `duplicate ${name}`, `${name} duplicated`),
            },
            {
              words: "Remove this shaft",
              act: () => doEdit(removeShaft(shaft.id), `remove ${name}`, `${name} removed`),
              apart: true,
            },
          ]}
        />
      </div>
      <div id={foldId} hidden={!open}>
        {open ? (
          <>
            <PortRow shaft={index} id={shaft.id} name={name} />
            <ul className={styles.parts} aria-label={`Gears and meshes of ${name}`}>
              {numbersIn(gears).map((gear) => (
                <GearRow key={gear} gear={gear} />
              ))}
              {meshes.map((mesh) => (
                <MeshRow key={mesh} mesh={mesh} />
              ))}
            </ul>
            <PlaceFold shaft={shaft} index={index} name={name} />
          </>
        ) : null}
      </div>
    </li>
  );
}
