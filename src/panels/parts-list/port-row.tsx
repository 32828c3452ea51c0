/** What the outside world does at a shaft: turns it, holds it, takes its work, or nothing. Signs of speeds stand here. */
import { setPort } from "../../engine/drive/commands/port";
import type { Port, PortRole } from "../../engine/drive/types";
import { turning } from "../../engine/explain/directions";
import { spoken } from "../../engine/explain/numbers";
import { supplyWords } from "../../engine/explain/supply-words";
import { useDocument } from "../../store/document";
import { useUnits } from "../../store/units";
import { doEdit, tryEdit } from "../edit";
import { ChoiceField } from "../fields/choice-field";
import { NumberField } from "../fields/number-field";
import styles from "./parts-list.module.css";

type Role = PortRole | "none";

const ROLES: readonly { readonly value: Role; readonly words: string }[] = [
  { value: "input", words: "turned by motor or hand" },
  { value: "output", words: "drives the load" },
  { value: "held", words: "held still" },
  { value: "none", words: "nothing: runs free" },
];

/** What a shaft that becomes an input turns at, where it had no speed of its own: our own choice. */
const FIRST_SPEED = 60;

interface PortRowProps {
  readonly shaft: number;
  readonly id: string;
  readonly name: string;
}

export function PortRow({ shaft, id, name }: PortRowProps) {
  const port = useDocument(({ solved }) => solved.drive.ports[solved.index.portOfShaft[shaft] ?? -1]);
  const way = useDocument(({ solved }) => turning(solved, shaft));
  const found = useDocument(({ solved }) => solved.motion.speed[shaft] ?? null);

  const units = useUnits();
  const supply = port ? supplyWords(port, units) : null;

  const setRole = (role: Role) => {
    if (role === "none") return doEdit(setPort(id, null), `free ${name}`);
    const sizes = { torque: port?.torque, power: port?.power };
    if (role === "held") return doEdit(setPort(id, { role }), `hold ${name}`);
    if (role === "output") return doEdit(setPort(id, { role, ...sizes }), `load at ${name}`);
    const speed = port?.speed ?? (found !== null && found !== 0 ? found : FIRST_SPEED);
    return doEdit(setPort(id, { role, speed, ...sizes }), `turn ${name}`);
  };

  return (
    <div className={styles.port}>
      <ChoiceField
        label={`What stands at ${name}`}
        shortLabel="role"
        hint="The port: input, output, held, or none (role)."
        value={port?.role ?? "none"}
        choices={ROLES}
        onChange={setRole}
      />
      {port && port.role !== "held" ? (
        <div className={styles.numbers}>
          {port.role === "input" ? (
            <NumberField
              label={`Speed of ${name}`}
              shortLabel="speed"
              hint="Plus is counterclockwise for an eye at the shaft's + end; minus the other way (speed)."
              value={port.speed ?? 0}
              unit="rev/min"
              step={10}
              width={5}
              digits={port.speedDigits}
              onChange={(speed, speedDigits) =>
                tryEdit(setPort(id, { ...port, speed, speedDigits }), `speed of ${name}`)
              }
            />
          ) : null}
          <SizeFields port={port} id={id} name={name} />
        </div>
      ) : null}
      {supply ? <p>{supply}</p> : null}
      <p className={styles.soft}>{found === null ? way : <span title={spoken(found, "rev/min", units)}>{way}</span>}</p>
    </div>
  );
}

interface SizeProps {
  readonly port: Port;
  readonly id: string;
  readonly name: string;
}

/** Torque or power, never both: giving one takes the other away. */
function SizeFields({ port, id, name }: SizeProps) {
  const isInput = port.role === "input";
  const set = (size: { torque?: number; power?: number }, what: string) =>
    tryEdit(setPort(id, { ...port, torque: undefined, power: undefined, ...size }), `${what} at ${name}`);
  const setTorque = (torque: number) => set({ torque }, "torque");
  const setPower = (power: number) => set({ power }, "power");
  const meaning = isInput ? "What the motor or hand can give" : "The load, which opposes the motion";
  return (
    <>
      <NumberField
        label={`${isInput ? "Available torque" : "Load torque"} at ${name}`}
        shortLabel="torque"
        hint={`${meaning}; empty where it isn't known. Takes the place of the power (torque).${isInput ? " A crank as 50 N x 150 mm." : ""}`}
        value={port.torque ?? null}
        unit="N·m"
        least={0}
        width={4}
        placeholder="–"
        also={{ unit: "W", name: "power", onChange: setPower }}
        onChange={setTorque}
        onClear={() => set({}, "torque")}
      />
      <NumberField
        label={`${isInput ? "Available power" : "Load power"} at ${name}`}
        shortLabel="or power"
        hint={`${meaning}; empty where it isn't known. Takes the place of the torque (power).${isInput ? " A motor as 12 V 1.5 A." : ""}`}
        value={port.power ?? null}
        unit="W"
        least={0}
        step={10}
        width={4}
        placeholder="–"
        also={{ unit: "N·m", name: "torque", onChange: setTorque }}
        onChange={setPower}
        onClear={() => set({}, "power")}
      />
    </>
  );
}
