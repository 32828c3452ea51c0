/** The readouts along the run of the drive: a card for each shaft, between cards the mesh, branches stacked, outputs largest. */
import { Fragment, useMemo } from "react";
import { type RunNode, runOfDrive } from "../../engine/explain/readouts";
import type { Solved } from "../../engine/solved";
import { FILE_UNITS } from "../../engine/units/choice";
import { useDocument } from "../../store/document";
import { useUnits } from "../../store/units";
import { useAnnounceChanges } from "./announcer";
import { Headline } from "./headline";
import { MeshToken } from "./mesh-token";
import { type PowerScale, powerScale } from "./power-box";
import styles from "./readouts.module.css";
import { OutputMark, ShaftCard, ShaftLine } from "./shaft-card";

/** Cards shown of a very large drive: its inputs, its outputs, and the first along the run. */
const MOST_CARDS = 60;

/** Shafts that count as outputs here: those that drive a load; where none is named, the last along the run. */
export function outputShafts(solved: Solved): readonly number[] {
  const named = solved.drive.ports.flatMap((port) =>
    port.role === "output" ? [solved.index.shafts.get(port.shaft) ?? -1] : [],
  );
  if (named.length > 0) return named;
  let last = runOfDrive(solved, FILE_UNITS)[0];
  if (!last || last.next.length === 0) return [];
  while (last.next.length > 0) last = last.next[last.next.length - 1] as RunNode;
  return [last.index];
}

interface Shown {
  readonly solved: Solved;
  readonly was: Solved | null;
  readonly scale: PowerScale | null;
  readonly outputs: ReadonlySet<number>;
  /** Several runs stand one after another: where one ends is told. */
  readonly hasSeveral: boolean;
}

export function Readouts() {
  const solved = useDocument((state) => state.solved);
  const was = useDocument((state) => state.was);
  useAnnounceChanges(outputShafts);
  const units = useUnits();
  const runs = useMemo(() => runOfDrive(solved, units), [solved, units]);
  const outputs = useMemo(() => outputShafts(solved), [solved]);
  const shown: Shown = {
    solved,
    was,
    scale: useMemo(() => powerScale(solved), [solved]),
    outputs: new Set(outputs),
    hasSeveral: runs.length > 1,
  };
  const all = useMemo(() => allNodes(runs), [runs]);
  const isLarge = solved.drive.shafts.length > MOST_CARDS;
  return (
    <section className={styles.readouts} aria-label="Readouts">
      <Headline solved={solved} was={was} outputs={outputs} />
      <div className={styles.lanes}>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
        <section className={styles.strip} tabIndex={0} aria-label="Shafts as the drive runs">
          {isLarge ? (
            <LargeRun all={all} shown={shown} />
          ) : (
            runs.map((run) => <Run key={run.shaft} node={run} shown={shown} isBranch={false} />)
          )}
        </section>
        {outputs.length === 0 ? null : (
          // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard.
          <section className={styles.outputs} tabIndex={0} aria-label={outputs.length === 1 ? "Output" : "Outputs"}>
            {all
              .filter((node) => shown.outputs.has(node.index))
              .slice(0, MOST_CARDS)
              .map((node) => (
                <Card key={node.shaft} node={node} shown={shown} />
              ))}
          </section>
        )}
      </div>
    </section>
  );
}

interface RunProps {
  readonly node: RunNode;
  readonly shown: Shown;
  /** Whether it is one of several branches: these are told in one line for each shaft. */
  readonly isBranch: boolean;
}

/** A chain up to where it branches, then its branches one above another. */
function Run({ node, shown, isBranch }: RunProps) {
  const chain = [node];
  for (let last = node; last.next.length === 1 && last.next[0]; last = last.next[0]) chain.push(last.next[0]);
  const branches = chain[chain.length - 1]?.next ?? [];
  return (
    <div className={styles.run}>
      {chain.map((link) => (
        <Fragment key={link.shaft}>
          <MeshToken node={link} solved={shown.solved} />
          {shown.outputs.has(link.index) ? (
            // At the end of a single chain the output's own card follows at once.
            isBranch || shown.hasSeveral || shown.outputs.size > 1 || link.next.length > 0 ? (
              <OutputMark node={link} solved={shown.solved} />
            ) : null
          ) : isBranch && link.role !== "input" ? (
            <ShaftLine node={link} solved={shown.solved} was={shown.was} />
          ) : (
            <Card node={link} shown={shown} />
          )}
        </Fragment>
      ))}
      {branches.length === 0 ? null : (
        <div className={styles.branches}>
          {branches.map((branch) => (
            <Run key={branch.shaft} node={branch} shown={shown} isBranch />
          ))}
        </div>
      )}
    </div>
  );
}

const Card = ({ node, shown }: { readonly node: RunNode; readonly shown: Shown }) => (
  <ShaftCard
    node={node}
    solved={shown.solved}
    was={shown.was}
    scale={shown.scale}
    isOutput={shown.outputs.has(node.index)}
  />
);

/** Every node of the runs, in the order in which they are reached; with a heap of its own, since a chain can be long. */
export function allNodes(runs: readonly RunNode[]): RunNode[] {
  const all = [...runs];
  for (let i = 0; i < all.length; i++) all.push(...(all[i]?.next ?? []));
  return all;
}

function LargeRun({ all, shown }: { readonly all: readonly RunNode[]; readonly shown: Shown }) {
  const others = all.filter((node) => !shown.outputs.has(node.index));
  const inputs = others.filter((node) => node.role === "input");
  const cards = [...inputs, ...others.filter((node) => node.role !== "input")].slice(0, MOST_CARDS);
  return (
    <div className={styles.run}>
      {cards.map((node) => (
        <Card key={node.shaft} node={node} shown={shown} />
      ))}
      <p className={styles.soft}>
        {cards.length + shown.outputs.size} of {all.length.toLocaleString("en-GB")} shafts; all of them stand in the
        parts list.
      </p>
    </div>
  );
}
