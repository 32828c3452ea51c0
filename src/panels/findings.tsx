/** What the checks say: a shape and a word for how bad it is, one sentence, and the way to its place. */
import { Info, Octagon, TriangleAlert } from "lucide-react";
import { HIDDEN } from "../engine/explain/directions";
import type { Finding, Severity } from "../engine/findings";
import { nameText, shaftName } from "../engine/wording";
import { useSettled } from "../store/settled";
import { hover, setView } from "../store/view";
import styles from "./findings.module.css";
import { partOf, reveal } from "./reveal";

const SHOWN_AT_ONCE = 100;

const SEVERITIES: Readonly<Record<Severity, { readonly word: string; readonly Icon: typeof Info }>> = {
  error: { word: "Error", Icon: Octagon },
  warning: { word: "Warning", Icon: TriangleAlert },
  note: { word: "Note", Icon: Info },
};

export function Findings() {
  const isHiding = useSettled(({ solved }) => solved.veil !== undefined);
  return (
    <>
      {isHiding ? <p className={styles.empty}>Findings that tell how the drive turns are {HIDDEN}.</p> : null}
      <FindingList />
    </>
  );
}

function FindingList() {
  const solved = useSettled((state) => state.solved);
  const { findings } = solved;
  if (findings.length === 0 && solved.veil) return null;
  if (findings.length === 0) {
    const turns = solved.motion.speed.some((speed) => speed !== null && speed !== 0);
    return <p className={styles.empty}>Nothing to report: {turns ? "the drive turns and " : ""}every check is met.</p>;
  }
  return (
    <>
      <ul className={styles.list} aria-label="Findings">
        {findings.slice(0, SHOWN_AT_ONCE).map((finding, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two findings may be alike in every word.
          <FindingItem key={`${finding.code} ${finding.at.join(" ")} ${i}`} finding={finding} />
        ))}
      </ul>
      {findings.length > SHOWN_AT_ONCE ? (
        <p className={styles.empty}>
          These are the first {SHOWN_AT_ONCE} of {findings.length.toLocaleString("en-GB")}; the rest follow as these are
          mended.
        </p>
      ) : null}
    </>
  );
}

function FindingItem({ finding }: { readonly finding: Finding }) {
  const { word, Icon } = SEVERITIES[finding.severity];
  const places = usePlaces(finding);
  return (
    <li className={styles.item} data-severity={finding.severity}>
      <span className={styles.head} title={`Code in the file format: ${finding.code}`}>
        <Icon size={20} aria-hidden className={styles.icon} />
        <strong>{word}</strong>
      </span>
      <p className={styles.sentence}>{finding.message}</p>
      {places.length > 0 ? (
        <span className={styles.places}>
          {finding.code === "loop-misfit" && finding.at[0] !== undefined ? (
            <button
              type="button"
              className={styles.show}
              onClick={() => setView({ asking: { kind: "fit", mesh: finding.at[0] ?? "" } })}
            >
              Fit…
            </button>
          ) : null}
          {places.map(({ part, words }) => (
            <button
              key={`${part.kind} ${part.id}`}
              type="button"
              className={styles.show}
              onClick={() => reveal(part)}
              onPointerEnter={() => hover(part)}
              onPointerLeave={() => hover(null)}
            >
              Show {words}
            </button>
          ))}
        </span>
      ) : null}
    </li>
  );
}

const MOST_PLACES = 4;

function usePlaces(finding: Finding) {
  const solved = useSettled((state) => state.solved);
  return finding.at.slice(0, MOST_PLACES).flatMap((id) => {
    const part = partOf(solved, id);
    if (!part) return [];
    if (part.kind !== "shaft") return [{ part, words: `${part.kind} ${nameText(id)}` }];
    return [{ part, words: shaftName(solved.drive, solved.index.shafts.get(id) ?? 0) }];
  });
}
