/** The readout of one shaft: which way it turns above all, then how fast, how far, how strongly. */
import { ArrowRight, Eye, RotateCcw, RotateCw } from "lucide-react";
import { memo, type ReactNode } from "react";
import { sense, tellingEnd } from "../../engine/explain/directions";
import { type End, endNames } from "../../engine/explain/ends";
import { spoken } from "../../engine/explain/numbers";
import type { RunNode } from "../../engine/explain/readouts";
import { ROLE_WORDS } from "../../engine/explain/statuses";
import type { Solved } from "../../engine/solved";
import type { UnitChoice } from "../../engine/units/choice";
import { shaftName } from "../../engine/wording";
import { shaftColour } from "../../store/colours";
import { useUnits } from "../../store/units";
import { hover, isPart, look, select, useView } from "../../store/view";
import { noSpeed, type ShaftWords, shaftWords, speedSize, wasWords } from "./changed";
import { boxSize, PowerBox, type PowerScale } from "./power-box";
import styles from "./readouts.module.css";
import { TurnCounter } from "./turn-counter";

export interface CardProps {
  readonly node: RunNode;
  readonly solved: Solved;
  readonly was: Solved | null;
  readonly scale: PowerScale | null;
  readonly isOutput: boolean;
}

/** All that a card shows, told as plain words and numbers: equal ones need not be drawn again. */
interface CardFacts extends ShaftWords {
  readonly shaft: string;
  readonly index: number;
  readonly name: string;
  readonly role: RunNode["role"];
  readonly way: "clockwise" | "counterclockwise" | null;
  readonly wasDirection: string | undefined;
  readonly wasSpeed: string | undefined;
  readonly wasTorque: string | null | undefined;
  readonly wasPower: string | null | undefined;
  readonly wasGain: string | null | undefined;
  readonly spokenSpeed: string;
  readonly spokenTorque: string;
  readonly spokenPower: string;
  /** The end from which it is told how it turns, and what that end is called. */
  readonly end: End;
  readonly place: string;
  /** px; 0 for no box. */
  readonly boxWidth: number;
  readonly boxHeight: number;
  readonly isOutput: boolean;
}

const absolute = (value: number | null | undefined): number | null => (value == null ? null : Math.abs(value));

function factsOf({ node, solved, was, scale, isOutput }: CardProps, units: UnitChoice): CardFacts {
  const { index, shaft, role } = node;
  const now = shaftWords(solved, index, units);
  const before = wasWords(was, shaft, now, units);
  const { torque = null, power = null } = solved.load.shafts[index] ?? {};
  const end = tellingEnd(solved, index);
  const [boxWidth, boxHeight] = (scale && boxSize(solved, index, scale)) ?? [0, 0];
  return {
    ...now,
    shaft,
    index,
    role,
    name: shaftName(solved.drive, index),
    way: sense(solved, index, end),
    wasDirection: before.direction,
    wasSpeed: before.speed,
    wasTorque: before.torque,
    wasPower: before.power,
    wasGain: before.gain,
    spokenSpeed: spoken(speedSize(solved, index), "rev/min", units, noSpeed(solved, index)),
    spokenTorque: now.torque === null ? "" : spoken(absolute(torque), "N·m", units, now.torque),
    spokenPower: now.power === null ? "" : spoken(absolute(power), "W", units),
    end,
    place: endNames(solved, index)[end],
    boxWidth,
    boxHeight,
    isOutput,
  };
}

export function ShaftCard(props: CardProps) {
  return <CardOf {...factsOf(props, useUnits())} />;
}

const CardOf = memo(function CardOf(facts: CardFacts) {
  const { shaft, index, name, role: port, isOutput, torque, power, gain, boxWidth, boxHeight } = facts;
  const part = { kind: "shaft", id: shaft } as const;
  const selected = useView((state) => isPart(state.selection, "shaft", shaft));
  const lit = useView((state) => isPart(state.hover, "shaft", shaft));
  const role = port ? ROLE_WORDS[port] : null;
  return (
    <article
      className={styles.card}
      aria-label={`${name}${role ? `, ${role.short}` : ""}`}
      style={{ borderBlockStartColor: shaftColour(index).variable }}
      data-part={`shaft ${shaft}`}
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
          <TurnCounter shaft={index} /> turns
        </span>
        <LookButton {...facts} />
      </div>
      <div className={styles.body}>
        <Direction {...facts} />
        {boxWidth > 0 ? <PowerBox shaft={index} width={boxWidth} height={boxHeight} /> : null}
      </div>
      <dl className={styles.figures}>
        <Figure name="speed" words={facts.speed} was={facts.wasSpeed}>
          {facts.spokenSpeed}
        </Figure>
        {torque === null ? null : (
          <Figure name="torque" words={torque} was={facts.wasTorque}>
            {facts.spokenTorque}
          </Figure>
        )}
        {power === null ? null : (
          <Figure name="power" words={power} was={facts.wasPower}>
            {facts.spokenPower}
          </Figure>
        )}
      </dl>
      {gain === null || port === "input" ? null : (
        <p className={styles.gain}>
          {gain}
          <Was words={facts.wasGain} />
        </p>
      )}
    </article>
  );
});

function Direction({ index, way, direction, wasDirection }: CardFacts) {
  const Arrow = way === "clockwise" ? RotateCw : RotateCcw;
  return (
    <div className={styles.direction}>
      {way === null ? null : <Arrow className={styles.arrow} aria-hidden color={shaftColour(index).variable} />}
      <p className={styles.way}>
        <Way words={direction} />
        <Was words={wasDirection} />
      </p>
    </div>
  );
}

/** An eye that glides the camera to the end from which the direction is told. */
function LookButton({ shaft, name, end, place }: CardFacts) {
  return (
    <button
      type="button"
      className={styles.eye}
      title={`Look from the ${place}`}
      aria-label={`Look at ${name} from the ${place}`}
      onClick={() => look({ name: "along", shaft, end: end === "plus" ? "+" : "-" })}
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
        <span className="only-heard">{children}</span>
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
export function ShaftLine(props: Pick<CardProps, "node" | "solved" | "was">) {
  return <LineOf {...factsOf({ ...props, scale: null, isOutput: false }, useUnits())} />;
}

const LineOf = memo(function LineOf({ shaft, index, name, role, way, ...facts }: CardFacts) {
  const part = { kind: "shaft", id: shaft } as const;
  const selected = useView((state) => isPart(state.selection, "shaft", shaft));
  const lit = useView((state) => isPart(state.hover, "shaft", shaft));
  const Arrow = way === "clockwise" ? RotateCw : RotateCcw;
  const colour = shaftColour(index).variable;
  return (
    <article
      className={styles.line}
      aria-label={name}
      style={{ borderInlineStartColor: colour }}
      data-part={`shaft ${shaft}`}
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
        {name}
      </button>
      {way === null ? null : <Arrow size={20} aria-hidden color={colour} />}
      <span>{role === "held" ? ROLE_WORDS.held.short : facts.direction}</span>
      {way === null ? null : (
        <span className={styles.soft}>
          <span aria-hidden>{facts.speed}</span>
          <span className="only-heard">{facts.spokenSpeed}</span>
        </span>
      )}
      <Was words={facts.wasSpeed} />
    </article>
  );
});

/** Where an output stands in the run; its own card stands apart, always in view. */
export function OutputMark({ node, solved }: Pick<CardProps, "node" | "solved">) {
  return (
    <span className={styles.mark} style={{ borderInlineStartColor: shaftColour(node.index).variable }}>
      {shaftName(solved.drive, node.index)} <ArrowRight size={20} aria-hidden />
    </span>
  );
}
