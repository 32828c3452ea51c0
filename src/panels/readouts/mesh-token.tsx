/** What stands between two cards: which gear drives which, and which way that turns the other. */
import { memo } from "react";
import { FIRST_EYE, nearSide, sameWay } from "../../engine/explain/directions";
import type { RunNode } from "../../engine/explain/readouts";
import type { Solved } from "../../engine/solved";
import { hover, isPart, select, useView } from "../../store/view";
import styles from "./readouts.module.css";

interface TokenProps {
  readonly node: RunNode;
  readonly solved: Solved;
}

/** "the other way" between parallel shafts, "near-side arrows meet" between shafts at an angle; null where nothing turns. */
function wayWords(solved: Solved, mesh: number): string | null {
  const [a, b] = solved.index.shaftsOfMesh[mesh] ?? [];
  if (a === undefined || b === undefined) return null;
  const way = sameWay(solved, a, b);
  if (way) return way;
  const near = nearSide(solved, mesh, FIRST_EYE);
  return near ? `near-side arrows ${near}` : null;
}

export function MeshToken({ node, solved }: TokenProps) {
  const { via } = node;
  if (!via) return null;
  const mesh = via.mesh === null ? undefined : solved.index.meshes.get(via.mesh);
  if (via.mesh === null || mesh === undefined) return <span className={styles.token}>{via.words}</span>;
  const kind = solved.placement.meshes[mesh]?.kind.words;
  const isWayHidden = solved.index.shaftsOfMesh[mesh]?.some((shaft) => solved.veil?.hides(shaft, "direction"));
  return (
    <TokenOf
      id={via.mesh}
      words={via.words}
      way={wayWords(solved, mesh)}
      title={kind ? (isWayHidden ? kind.name : `${kind.name}. ${kind.direction}`) : undefined}
    />
  );
}

interface TokenFacts {
  readonly id: string;
  readonly words: string;
  readonly way: string | null;
  readonly title: string | undefined;
}

const TokenOf = memo(function TokenOf({ id, words, way, title }: TokenFacts) {
  const selected = useView((state) => isPart(state.selection, "mesh", id));
  const part = { kind: "mesh", id } as const;
  return (
    <button
      type="button"
      className={styles.token}
      aria-pressed={selected}
      title={title}
      onClick={() => select(selected ? null : part)}
      onPointerEnter={(event) => event.pointerType !== "touch" && hover(part)}
      onPointerLeave={() => hover(null)}
    >
      <PairMark />
      <span>{words}</span>
      {way ? <span className={styles.tokenWay}>{way}</span> : null}
    </button>
  );
});

/** Two pitch circles that touch. */
function PairMark() {
  return (
    <svg
      width={40}
      height={26}
      viewBox="0 0 40 26"
      aria-hidden="true"
      fill="none"
      stroke="currentColor"
      strokeWidth={1.5}
    >
      <circle cx={9} cy={13} r={7} />
      <circle cx={27} cy={13} r={11} />
      <path d="M9 11v4M7 13h4M27 11v4M25 13h4" strokeWidth={1} />
    </svg>
  );
}
