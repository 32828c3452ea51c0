/** Four places round the shaft, laid out as on a clock face; those that are taken are grey and say why. */
import { useId } from "react";
import { shaftColour } from "../../store/colours";
import type { Place, Plan } from "../../store/stage/plan";
import styles from "./add-stage.module.css";

interface Props {
  readonly plan: Plan;
  readonly shaft: number;
  readonly name: string;
  readonly onChange: (azimuth: number) => void;
}

const AREAS: Readonly<Record<Place["hour"], string>> = { 12: "top", 3: "right", 6: "bottom", 9: "left" };

export function PlaceChoice({ plan, shaft, name, onChange }: Props) {
  const id = useId();
  const reasons = taken(plan.places);
  return (
    <fieldset className={styles.group}>
      <legend>
        Round {name}, seen from the {plan.seenFrom}
      </legend>
      <div className={styles.compass}>
        <svg className={styles.hub} viewBox="0 0 40 40" aria-hidden="true">
          <circle cx="20" cy="20" r="18" fill="none" stroke="var(--line-strong)" />
          <circle cx="20" cy="20" r="9" fill={shaftColour(shaft).variable} />
          <circle cx="20" cy="20" r="2" fill="var(--surface)" />
        </svg>
        {plan.places.map((place) => (
          <label
            key={place.hour}
            className={styles.chip}
            style={{ gridArea: AREAS[place.hour] }}
            data-taken={place.blocked !== null || undefined}
            title={place.blocked ?? undefined}
          >
            <input
              type="radio"
              name={id}
              value={place.azimuth}
              checked={plan.chosen === place}
              disabled={place.blocked !== null}
              aria-describedby={place.blocked === null ? undefined : `${id}-why`}
              onChange={() => onChange(place.azimuth)}
            />
            <span>{place.words}</span>
          </label>
        ))}
      </div>
      <ul id={`${id}-why`} className={styles.reasons} hidden={reasons.length === 0}>
        {reasons.map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
    </fieldset>
  );
}

/** "Below and behind: Gear c1 would stand in a1." One line for each reason. */
export function taken(places: readonly Place[]): string[] {
  const byReason = new Map<string, string[]>();
  for (const { blocked, words } of places) {
    if (blocked !== null) byReason.set(blocked, [...(byReason.get(blocked) ?? []), words]);
  }
  return [...byReason].map(([reason, where]) => {
    if (where.length === places.length) return reason;
    const list = where.length > 1 ? `${where.slice(0, -1).join(", ")} or ${where[where.length - 1]}` : where[0];
    return `Not ${list}: ${reason}`;
  });
}
