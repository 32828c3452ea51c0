/** The readout of one shaft: which way it turns above all, then how fast, how far, how strongly. */
import { ArrowRight, Eye, RotateCcw, RotateCw } from "lucide-react";
import type { ReactNode } from "react";
import { sense, tellingEnd } from "../../engine/explain/directions";
import { endNames } from "../../engine/explain/ends";
import { spoken } from "../../engine/explain/numbers";
import type { RunNode } from "../../engine/explain/readouts";
import { ROLE_WORDS } from "../../engine/explain/statuses";
import type { Solved } from "../../engine/solved";
import { shaftName } from "../../engine/wording";
import { shaftColour } from "../../store/colours";
import { useUnits } from "../../store/units";
import { hover, isPart, look, select, useView } from "../../store/view";
import { shaftWords, wasWords } from "./changed";
import { PowerBox, type PowerScale } from "./power-box";
import styles from "./readouts.module.css";
import { TurnCounter } from "./turn-counter";

export interface CardProps {
  readonly node: RunNode;
  readonly solved: Solved;
  readonly was: Solved | null;
  readonly scale: PowerScale | null;
  readonly isOutput: boolean;
}

export function ShaftCard({ node, solved, was, scale, isOutput }: CardProps) {
  const part = { kind: "shaft", id: node.shaft } as const;
  const selected = useView((state) => isPart(state.selection, "shaft", node.shaft));
  const lit = useView((state) => isPart(state.hover, "shaft", node.shaft));
  const name = shaftName(solved.drive, node.index);
  const units = useUnits();
  const now = shaftWords(solved, node.index, units);
  const before = wasWords(was, node.shaft, now, units);
  const { torque = null, power = null } = solved.load.shafts[node.index] ?? {};
  const role = node.role ? ROLE_WORDS[node.role] : null;
  return (
    <article
      className={styles.card}
      aria-label={`${name}${role ? `, ${role.short}` : ""}`}
      style={{ borderBlockStartColor: shaftColour(node.index).variable }}
      data-part={`shaft ${node.shaft}`}
      data-output={isOutput || undefined}
      data-selected={selected || undefined}
      data-lit={lit || undefined}
      onPointerEnter={(event) => event.pointerType !== "touch" && hover(part)}
      onPointerLeave={() => hover(null)}
    >
      <div className={styles.head}>
        <button
          type="button"
          className={styles.name}
          aria-pressed={selected}
          onClick={() => select(selected ? null : part)}
        >
          {name}
        </button>
        {role ? (
          <span className={styles.role} title={role.sentence}>
            {role.short}
          </span>
        ) : null}
        {/* A count that changes all the time is not read out by itself. */}
        <span className={styles.turns}>
          <TurnCounter shaft={node.index} /> turns
        </span>
        <LookButton solved={solved} node={node} />
      </div>
      <div className={styles.body}>
        <Direction solved={solved} node={node} words={now.direction} was={before.direction} />
        {scale ? <PowerBox solved={solved} shaft={node.index} scale={scale} /> : null}
      </div>
      <dl className={styles.figures}>
        <Figure name="speed" words={now.speed} was={before.speed}>
          {spoken(absolute(solved.motion.speed[node.index]), "rev/min", units, "not fixed yet")}
        </Figure>
        {now.torque === null ? null : (
          <Figure name="torque" words={now.torque} was={before.torque}>
            {spoken(absolute(torque), "N·m", units)}
          </Figure>
        )}
        {now.power === null ? null : (
          <Figure name="power" words={now.power} was={before.power}>
            {spoken(absolute(power), "W", units)}
          </Figure>
        )}
      </dl>
      {now.gain === null || node.role === "input" ? null : (
        <p className={styles.gain}>
          {now.gain}
          <Was words={before.gain} />
        </p>
      )}
    </article>
  );
}

const absolute = (value: number | null | undefined): number | null => (value == null ? null : Math.abs(value));

interface DirectionProps {
  readonly solved: Solved;
  readonly node: RunNode;
  readonly words: string;
  readonly was: string | undefined;
}

function Direction({ solved, node, words, was }: DirectionProps) {
  const end = tellingEnd(solved, node.index);
  const way = sense(solved, node.index, end);
  const Arrow = way === "clockwise" ? RotateCw : RotateCcw;
  return (
    <div className={styles.direction}>
      {way === null ? null : <Arrow className={styles.arrow} aria-hidden color={shaftColour(node.index).variable} />}
      <p className={styles.way}>
        <Way words={words} />
        <Was words={was ?? undefined} />
      </p>
    </div>
  );
}

/** An eye that glides the camera to the end from which the direction is told. */
function LookButton({ solved, node }: Pick<CardProps, "solved" | "node">) {
  const end = tellingEnd(solved, node.index);
  const place = endNames(solved, node.index)[end];
  return (
    <button
      type="button"
      className={styles.eye}
      title={`Look from the ${place}`}
      aria-label={`Look at ${shaftName(solved.drive, node.index)} from the ${place}`}
      onClick={() => look({ name: "along", shaft: node.shaft, end: end === "plus" ? "+" : "-" })}
    >
      <Eye size={20} aria-hidden />
    </button>
  );
}

/** The way itself first and largest, where it is seen from below it. */
function Way({ words }: { readonly words: string }) {
  const [way, ...from] = words.split(" seen from ");
  return (
    <>
      <b>{way}</b>
      {from.length > 0 ? <span> seen from {from.join(" seen from ")}</span> : null}
    </>
  );
}

interface FigureProps {
  readonly name: string;
  readonly words: string;
  readonly was: string | null | undefined;
  /** The same, spelled out for a screen reader. */
  readonly children: string;
}

function Figure({ name, words, was, children }: FigureProps): ReactNode {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <span aria-hidden>{words}</span>
        <span className={styles.heard}>{children}</span>
        <Was words={was ?? undefined} />
      </dd>
    </div>
  );
}

/** "was 580 rev/min": stays until the next edit. */
function Was({ words }: { readonly words: string | null | undefined }) {
  return words ? <span className={styles.was}>was {words}</span> : null;
}

/** One line for a shaft on a branch: its name, which way, how fast. */
export function ShaftLine({ node, solved, was }: Pick<CardProps, "node" | "solved" | "was">) {
  const part = { kind: "shaft", id: node.shaft } as const;
  const selected = useView((state) => isPart(state.selection, "shaft", node.shaft));
  const lit = useView((state) => isPart(state.hover, "shaft", node.shaft));
  const units = useUnits();
  const now = shaftWords(solved, node.index, units);
  const before = wasWords(was, node.shaft, now, units);
  const way = sense(solved, node.index, tellingEnd(solved, node.index));
  const Arrow = way === "clockwise" ? RotateCw : RotateCcw;
  const colour = shaftColour(node.index).variable;
  return (
    <article
      className={styles.line}
      aria-label={shaftName(solved.drive, node.index)}
      style={{ borderInlineStartColor: colour }}
      data-part={`shaft ${node.shaft}`}
      data-selected={selected || undefined}
      data-lit={lit || undefined}
      onPointerEnter={(event) => event.pointerType !== "touch" && hover(part)}
      onPointerLeave={() => hover(null)}
    >
      <button
        type="button"
        className={styles.name}
        aria-pressed={selected}
        onClick={() => select(selected ? null : part)}
      >
        {shaftName(solved.drive, node.index)}
      </button>
      {way === null ? null : <Arrow size={20} aria-hidden color={colour} />}
      <span>{node.role === "held" ? ROLE_WORDS.held.short : now.direction}</span>
      {way === null ? null : (
        <span className={styles.soft}>
          <span aria-hidden>{now.speed}</span>
          <span className={styles.heard}>{spoken(absolute(solved.motion.speed[node.index]), "rev/min", units)}</span>
        </span>
      )}
      <Was words={before.speed} />
    </article>
  );
}

/** Where an output stands in the run; its own card stands apart, always in view. */
export function OutputMark({ node, solved }: Pick<CardProps, "node" | "solved">) {
  return (
    <span className={styles.mark} style={{ borderInlineStartColor: shaftColour(node.index).variable }}>
      {shaftName(solved.drive, node.index)} <ArrowRight size={20} aria-hidden />
    </span>
  );
}
