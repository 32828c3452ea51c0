/**
 * The notes of the drive as small numbered pins over the picture: buttons of the page, moved to their places once a frame. A pin shows
 * its words while it is pointed at or has the focus, and while its note or its part is selected.
 */
import { useEffect, useMemo, useRef } from "react";
import { type NotePlace, notesOf, type PinnedNote } from "../engine/drive/notes";
import { notePlaceWords } from "../engine/explain/note-words";
import { frameOfMesh } from "../engine/motion/pose-at";
import type { Vec3 } from "../engine/solved";
import { along, scale } from "../engine/vector";
import { toggleNote, useMeasuring } from "../store/measuring";
import { useView } from "../store/view";
import type { BenchLayout } from "./bench-layout";
import { currentOrbit, screenSize } from "./camera";
import { project } from "./orbit";
import { onPlace } from "./overlay";
import css from "./pins.module.css";
import { shownDrive, useShownDrive } from "./shown-drive";
import { inFrame } from "./turning";

interface Pin {
  readonly note: PinnedNote;
  /** World at rest, mm. */
  readonly at: Vec3;
  /** What it rides on; -1 for none. */
  readonly carrier: number;
  /** How many pins stand at the same place before it. */
  readonly before: number;
}

/** Where a note is pinned; null where its part isn't there or isn't placed. */
export function pinPoint(layout: BenchLayout, at: NotePlace): { readonly at: Vec3; readonly carrier: number } | null {
  const { index, placement } = layout.solved;
  if (at.part === "point") return { at: at.point, carrier: -1 };
  if (at.part === "mesh") {
    const mesh = index.meshes.get(at.id) ?? -1;
    const contact = placement.meshes[mesh]?.contact;
    return contact
      ? { at: scale(along(contact[0], contact[1], 1), 0.5), carrier: frameOfMesh(layout.solved, mesh) }
      : null;
  }
  if (at.part === "gear") {
    const gear = index.gears.get(at.id) ?? -1;
    const centre = placement.gears[gear]?.centre;
    return centre ? { at: centre, carrier: index.frameOfShaft[index.shaftOfGear[gear] ?? -1] ?? -1 } : null;
  }
  const shaft = index.shafts.get(at.id) ?? -1;
  const [placed, rod] = [placement.shafts[shaft], layout.rods[shaft]];
  if (!placed || !rod) return null;
  // The end at which its name doesn't stand.
  return {
    at: along(placed.origin, placed.axis, rod.side > 0 ? rod.low : rod.high),
    carrier: index.frameOfShaft[shaft] ?? -1,
  };
}

function pinsOf(layout: BenchLayout): Pin[] {
  const taken = new Map<string, number>();
  return notesOf(layout.solved.drive).flatMap((note) => {
    const point = pinPoint(layout, note.at);
    if (!point) return [];
    const key = JSON.stringify(note.at);
    const before = taken.get(key) ?? 0;
    taken.set(key, before + 1);
    return [{ note, ...point, before }];
  });
}

/** px from one pin to the next at the same place. */
const BESIDE = 26;

export const Pins = () => {
  const { layout } = useShownDrive();
  const pins = useMemo(() => pinsOf(layout), [layout]);
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const place = (): void => {
      const elements = host.current?.children;
      if (!elements) return;
      const { width, height } = screenSize();
      const orbit = currentOrbit();
      const { poses } = shownDrive().turning;
      pins.forEach(({ at, carrier, before }, i) => {
        const element = elements[i] as HTMLElement | undefined;
        if (!element) return;
        const seen = project(orbit, inFrame(poses, carrier, at), height);
        const [x, y] = [width / 2 + seen.x + before * BESIDE, height / 2 - seen.y];
        const isIn = seen.depth > 0 && x > 0 && x < width && y > 0 && y < height;
        element.style.visibility = isIn ? "visible" : "hidden";
        element.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
        // Words go where there is room for them.
        element.dataset.side = x > width / 2 ? "left" : "right";
      });
    };
    place();
    return onPlace(place);
  }, [pins]);
  return (
    <div ref={host}>
      {pins.map((pin) => (
        <PinButton key={pin.note.entry} pin={pin} words={notePlaceWords(layout.solved, pin.note.at)} />
      ))}
    </div>
  );
};

const PinButton = ({ pin: { note }, words }: { readonly pin: Pin; readonly words: string }) => {
  const isChosen = useMeasuring((state) => state.note === note.entry);
  const { at } = note;
  const isSelected = useView(
    ({ selection }) => at.part !== "point" && selection?.kind === at.part && selection.id === at.id,
  );
  return (
    <span className={css.place}>
      <button
        type="button"
        className={css.pin}
        aria-label={`Note ${note.number} ${words}: ${note.text}`}
        aria-pressed={isChosen}
        data-open={isChosen || isSelected || undefined}
        onClick={() => toggleNote(note.entry, at.part === "point" ? null : { kind: at.part, id: at.id })}
      >
        <span className={css.number} aria-hidden="true">
          {note.number}
        </span>
      </button>
      <span className={css.words} aria-hidden="true">
        {note.text}
      </span>
    </span>
  );
};
