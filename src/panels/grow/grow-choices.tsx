/** The choices at a `+`: a picture and a word each. The pointer over one shows its ghost; a press, or its key, takes it. */
import { Cog, Gauge, GitCommitHorizontal } from "lucide-react";
import { useId } from "react";
import { setGrow } from "../../store/growing";
import type { GrowOption } from "../../store/stage/grow-options";
import { StageIcon } from "../add-stage/icons";
import styles from "./grow.module.css";

interface Props {
  readonly options: readonly GrowOption[];
  readonly chosen: string | null;
  readonly onChoose: (id: string) => void;
}

export function GrowChoices({ options, chosen, onChoose }: Props) {
  const name = useId();
  return (
    <fieldset className={styles.choices} onPointerLeave={() => setGrow({ peek: null })}>
      <legend className="only-heard">What grows there</legend>
      {options.map((option) => (
        <label
          key={option.id}
          className={styles.choice}
          title={`${option.hint} Key ${option.key}.`}
          onPointerEnter={(event) => event.pointerType !== "touch" && setGrow({ peek: option.id })}
        >
          <input
            type="radio"
            name={name}
            value={option.id}
            checked={chosen === option.id}
            aria-keyshortcuts={option.key}
            onChange={() => onChoose(option.id)}
          />
          <OptionIcon option={option} />
          <span>{option.words}</span>
        </label>
      ))}
    </fieldset>
  );
}

const OTHER = { idler: GitCommitHorizontal, gear: Cog, port: Gauge } as const;

function OptionIcon({ option: { what, id } }: { readonly option: GrowOption }) {
  if (what === "stage") return <StageIcon kind={id} />;
  const Icon = OTHER[what];
  return (
    <span className={styles.icon}>
      <Icon size={24} strokeWidth={1.5} aria-hidden />
    </span>
  );
}
