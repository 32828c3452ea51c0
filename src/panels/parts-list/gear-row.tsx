/** One gear of a shaft: what kind, its size, where it sits; the finer numbers in a fold. */
import { ChevronDown, ChevronRight } from "lucide-react";
import { useId, useState } from "react";
import { setGear } from "../../engine/drive/commands/gear";
import { removeGear } from "../../engine/drive/commands/remove";
import { type Gear, type GearKind, hasTeeth, LIMITS } from "../../engine/drive/types";
import { endNames } from "../../engine/explain/ends";
import { nameText } from "../../engine/wording";
import { useDocument } from "../../store/document";
import { useUnits } from "../../store/units";
import { setView } from "../../store/view";
import { doEdit, tryEdit } from "../edit";
import { ChoiceField } from "../fields/choice-field";
import { NumberField } from "../fields/number-field";
import { toothSize } from "../fields/tooth-size";
import { PartMenu } from "./part-menu";
import styles from "./parts-list.module.css";
import { useRow } from "./rows";

/** The same elements each time: React leaves them alone. */
const OPEN = <ChevronDown size={20} aria-hidden />;
const FOLDED = <ChevronRight size={20} aria-hidden />;

const KIND_WORDS: Readonly<Record<GearKind, string>> = {
  spur: "spur gear",
  internal: "ring (internal gear)",
  bevel: "bevel gear",
  wheel: "friction wheel",
  "internal-wheel": "friction ring",
  cone: "friction cone",
};

/** Kinds whose outward axis the file gives by `apex`. */
const HAS_APEX: ReadonlySet<GearKind> = new Set<GearKind>(["bevel", "cone"]);

type Numbers = "at" | "face" | "pressureAngle" | "addendum" | "clearance" | "shift" | "bore" | "backlash" | "phase";

/** What an undo step calls them, where that is not their name in the format. */
const CALLED: Readonly<Partial<Record<Numbers, string>>> = {
  at: "place",
  face: "face width",
  pressureAngle: "pressure angle",
  shift: "profile shift",
};

export function GearRow({ gear: index }: { readonly gear: number }) {
  const gear = useDocument((state) => state.solved.drive.gears[index]);
  return gear ? <GearRowOf key={gear.id} gear={gear} /> : null;
}

function GearRowOf({ gear }: { readonly gear: Gear }) {
  const [open, setOpen] = useState(false);
  const foldId = useId();
  const row = useRow<HTMLLIElement>("gear", gear.id);
  const name = nameText(gear.id);
  const set = (key: Numbers) => (value: number) =>
    tryEdit(setGear(gear.id, { [key]: value }), `${CALLED[key] ?? key} of ${name}`);

  return (
    <li className={styles.part} {...row}>
      <div className={styles.partHead}>
        <button
          type="button"
          className={styles.icon}
          aria-expanded={open}
          aria-controls={foldId}
          aria-label={`More numbers of gear ${name}`}
          title={open ? "Fewer numbers" : "More numbers"}
          onClick={() => setOpen(!open)}
        >
          {open ? OPEN : FOLDED}
        </button>
        <h4 className={styles.partName} title={`Gear ${gear.id}; kind "${gear.kind}" in the file`}>
          <b>{name}</b> {KIND_WORDS[gear.kind]}
        </h4>
        <PartMenu
          label={`Commands for gear ${name}`}
          items={[
            {
              words: "Add a stage from this gear…",
              act: () => setView({ adding: { shaft: gear.shaft, gear: gear.id } }),
            },
            {
              words: "Remove this gear",
              act: () => doEdit(removeGear(gear.id), `remove ${name}`, `Gear ${name} removed`),
              apart: true,
            },
          ]}
        />
      </div>
      <div className={styles.numbers}>
        <SizeFields gear={gear} name={name} />
        <NumberField
          label={`Place of ${name} along the shaft`}
          shortLabel="at"
          hint={
            HAS_APEX.has(gear.kind)
              ? "Where the heel's pitch circle stands on the shaft's axis (at)."
              : "Where the middle of the face stands on the shaft's axis (at)."
          }
          value={gear.at}
          unit="mm"
          width={4}
          onChange={set("at")}
        />
        <NumberField
          label={`Face width of ${name}`}
          shortLabel="face"
          hint="Face width: how long the teeth are (face)."
          value={gear.face}
          unit="mm"
          least={0}
          above
          width={4}
          onChange={set("face")}
        />
      </div>
      <div id={foldId} className={styles.numbers} hidden={!open}>
        {open ? <FinerNumbers gear={gear} name={name} set={set} /> : null}
      </div>
    </li>
  );
}

function SizeFields({ gear, name }: { readonly gear: Gear; readonly name: string }) {
  const units = useUnits();
  if (!hasTeeth(gear)) {
    return (
      <NumberField
        label={`Diameter of ${name}`}
        shortLabel="diameter"
        hint="Rolling diameter, at the heel on a cone (diameter)."
        value={gear.diameter}
        unit="mm"
        least={0}
        above
        width={5}
        digits={gear.diameterDigits}
        onChange={(diameter, diameterDigits) =>
          tryEdit(setGear(gear.id, { diameter, diameterDigits }), `diameter of ${name}`)
        }
      />
    );
  }
  return (
    <>
      <NumberField
        label={`Teeth of ${name}`}
        shortLabel="teeth"
        hint="Number of teeth: it alone sets the ratio (teeth)."
        value={gear.teeth}
        spokenUnit="teeth"
        whole
        least={1}
        most={LIMITS.teeth}
        width={5}
        onChange={(teeth) => tryEdit(setGear(gear.id, { teeth }), `teeth of ${name}`)}
      />
      <NumberField
        {...toothSize(units, name)}
        value={gear.module}
        unit="module"
        least={0}
        above
        step={0.5}
        width={4}
        onChange={(module) => tryEdit(setGear(gear.id, { module }), `module of ${name}`)}
      />
    </>
  );
}

/** A finer number of a gear: its key in the file, what it is called, and how it is typed. */
interface FinerNumber {
  readonly key: Numbers;
  readonly label: (name: string) => string;
  readonly shortLabel: string;
  readonly hint: string;
  readonly unit: string;
  readonly spokenUnit?: string;
  readonly least?: number;
  readonly above?: boolean;
  readonly most?: number;
  readonly step?: number;
}

const TOOTH_NUMBERS: readonly FinerNumber[] = [
  {
    key: "pressureAngle",
    label: (name) => `Pressure angle of ${name}`,
    shortLabel: "pressure angle",
    hint: "Usually 20° (pressureAngle). Mates must agree.",
    unit: "°",
    least: 0,
    above: true,
    most: 45,
    step: 0.5,
  },
  {
    key: "addendum",
    label: (name) => `Addendum of ${name}, in modules`,
    shortLabel: "addendum",
    hint: "Height of a tooth above the pitch circle, in modules; 1 in ISO 53 (addendum).",
    unit: "× m",
    spokenUnit: "modules",
    least: 0,
    above: true,
    step: 0.05,
  },
  {
    key: "clearance",
    label: (name) => `Clearance of ${name}, in modules`,
    shortLabel: "clearance",
    hint: "Room between a tip and the mate's root, in modules; 0.25 in ISO 53 (clearance).",
    unit: "× m",
    spokenUnit: "modules",
    least: 0,
    step: 0.05,
  },
  {
    key: "shift",
    label: (name) => `Profile shift of ${name}, in modules`,
    shortLabel: "shift",
    hint: "Profile shift, in modules (shift). Those of mates must sum to 0.",
    unit: "× m",
    spokenUnit: "modules",
    step: 0.05,
  },
  {
    key: "backlash",
    label: (name) => `Backlash of ${name}`,
    shortLabel: "backlash",
    hint: "How much this gear's own teeth are thinned at the pitch circle (backlash).",
    unit: "mm",
    least: 0,
    step: 0.05,
  },
];

const BODY_NUMBERS: readonly FinerNumber[] = [
  {
    key: "bore",
    label: (name) => `Bore of ${name}`,
    shortLabel: "bore",
    hint: "Diameter of the hole for the shaft; 0 for none (bore).",
    unit: "mm",
    least: 0,
  },
  {
    key: "phase",
    label: (name) => `Phase of ${name} on its shaft`,
    shortLabel: "phase",
    hint: "How far the gear is turned on its shaft (phase).",
    unit: "°",
  },
];

interface FinerProps {
  readonly gear: Gear;
  readonly name: string;
  readonly set: (key: Numbers) => (value: number) => string | null;
}

function FinerNumbers({ gear, name, set }: FinerProps) {
  const numbers = hasTeeth(gear) ? [...TOOTH_NUMBERS, ...BODY_NUMBERS] : BODY_NUMBERS;
  return (
    <>
      {HAS_APEX.has(gear.kind) ? <FacesField gear={gear} name={name} /> : null}
      {numbers.map(({ key, label, ...field }) => (
        <NumberField key={key} label={label(name)} value={gear[key]} width={5} onChange={set(key)} {...field} />
      ))}
    </>
  );
}

function FacesField({ gear, name }: { readonly gear: Gear; readonly name: string }) {
  const plus = useDocument(({ solved }) => endNames(solved, solved.index.shafts.get(gear.shaft) ?? -1).plus);
  const minus = useDocument(({ solved }) => endNames(solved, solved.index.shafts.get(gear.shaft) ?? -1).minus);
  return (
    <ChoiceField
      label={`Which end ${name} faces`}
      shortLabel="faces the"
      hint="The end at which the cone's apex lies, up to a pitch angle of 90° (apex + or −)."
      value={gear.apex}
      choices={[
        { value: "+", words: plus },
        { value: "-", words: minus },
      ]}
      onChange={(apex) => doEdit(setGear(gear.id, { apex }), `side of ${name}`)}
    />
  );
}
