/** The readouts along the run of the drive: a card for each shaft, between cards the mesh, branches stacked, outputs largest. */
import { Fragment, useMemo } from "react";
import { type RunNode, runOfDrive } from "../../engine/explain/readouts";
import type { Solved } from "../../engine/solved";
import { useDocument } from "../../store/document";
import { useAnnounceChanges } from "./announcer";
import { Headline } from "./headline";
import { MeshToken } from "./mesh-token";
import { type PowerScale, powerScale } from "./power-box";
import styles from "./readouts.module.css";
import { ShaftCard } from "./shaft-card";

/** Cards shown of a very large drive: its inputs, its outputs, and the first along the run. */
const MOST_CARDS = 60;

/** Shafts that count as outputs here: those that drive a load; where none is named, the last along the run. */
export function outputShafts(solved: Solved): readonly number[] {
  const named = solved.drive.ports.flatMap((port) =>
    port.role === "output" ? [solved.index.shafts.get(port.shaft) ?? -1] : [],
  );
  if (named.length > 0) return named;
  let last = runOfDrive(solved)[0];
  if (!last || last.next.length === 0) return [];
  while (last.next.length > 0) last = last.next[last.next.length - 1] as RunNode;
  return [last.index];
}

interface Shown {
  readonly solved: Solved;
  readonly was: Solved | null;
  readonly scale: PowerScale | null;
  readonly outputs: ReadonlySet<number>;
}

export function Readouts() {
  const solved = useDocument((state) => state.solved);
  const was = useDocument((state) => state.was);
  useAnnounceChanges(outputShafts);
  const runs = useMemo(() => runOfDrive(solved), [solved]);
  const outputs = useMemo(() => outputShafts(solved), [solved]);
  const shown: Shown = { solved, was, scale: useMemo(() => powerScale(solved), [solved]), outputs: new Set(outputs) };
  const isLarge = solved.drive.shafts.length > MOST_CARDS;
  return (
    <section className={styles.readouts} aria-label="Readouts">
      <Headline solved={solved} was={was} outputs={outputs} />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
      <section className={styles.strip} tabIndex={0} aria-label="Shafts as the drive runs">
        {isLarge ? (
          <LargeRun runs={runs} shown={shown} />
        ) : (
          runs.map((run) => <Run key={run.shaft} node={run} shown={shown} />)
        )}
      </section>
    </section>
  );
}

/** A chain up to where it branches, then its branches one above another. */
function Run({ node, shown }: { readonly node: RunNode; readonly shown: Shown }) {
  const chain = [node];
  for (let last = node; last.next.length === 1 && last.next[0]; last = last.next[0]) chain.push(last.next[0]);
  const branches = chain[chain.length - 1]?.next ?? [];
  return (
    <div className={styles.run}>
      {chain.map((link) => (
        <Fragment key={link.shaft}>
          <MeshToken node={link} solved={shown.solved} />
          <Card node={link} shown={shown} />
        </Fragment>
      ))}
      {branches.length === 0 ? null : (
        <div className={styles.branches}>
          {branches.map((branch) => (
            <Run key={branch.shaft} node={branch} shown={shown} />
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
function allNodes(runs: readonly RunNode[]): RunNode[] {
  const all = [...runs];
  for (let i = 0; i < all.length; i++) all.push(...(all[i]?.next ?? []));
  return all;
}

function LargeRun({ runs, shown }: { readonly runs: readonly RunNode[]; readonly shown: Shown }) {
  const all = allNodes(runs);
  const isChief = (node: RunNode) => node.role === "input" || shown.outputs.has(node.index);
  const chief = all.filter(isChief).slice(0, MOST_CARDS);
  const others = all.filter((node) => !isChief(node)).slice(0, MOST_CARDS - chief.length);
  const cards = [
    ...chief.filter((node) => !shown.outputs.has(node.index)),
    ...others,
    ...chief.filter((node) => shown.outputs.has(node.index)),
  ];
  return (
    <div className={styles.run}>
      {cards.map((node) => (
        <Card key={node.shaft} node={node} shown={shown} />
      ))}
      <p className={styles.soft}>
        {cards.length} of {all.length.toLocaleString("en-GB")} shafts; all of them stand in the parts list.
      </p>
    </div>
  );
}
