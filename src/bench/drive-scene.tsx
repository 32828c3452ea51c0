/**
 * One drive as scene objects: for each shaft a group that turns with it and one that stands beside it, for each carrier one that
 * rides on it. React places them once for an edit; each frame their matrices are written straight from the poses.
 */
import { memo, useMemo, useRef } from "react";
import type { Group } from "three";
import type { GearOutline } from "../engine/collisions/gear-outline";
import { frameOfMesh, MATRIX } from "../engine/motion/pose-at";
import { RIM_MARKS } from "../engine/motion/shown-speed";
import { toothSpec } from "../engine/teeth/spec";
import { shaftName } from "../engine/wording";
import { useView } from "../store/view";
import type { BenchLayout } from "./bench-layout";
import { ContactLine } from "./contact-lines";
import { GearBody, type GearProps } from "./gear-body";
import { SceneGroup, useFrame } from "./scene-objects";
import { type ShaftProps as ShaftPartsProps, StandingParts, shaftLook, TurningParts } from "./shaft-body";
import type { BenchColours } from "./theme-colours";
import type { Turning } from "./turning";

interface DriveProps {
  readonly layout: BenchLayout;
  readonly turning: Turning;
  readonly colours: BenchColours;
  /** Ids of the shafts to draw as ghosts, and no others; null for the drive itself. */
  readonly ghosts?: readonly string[] | null;
  /** Ids of gears on other shafts to draw as ghosts too. */
  readonly ghostGears?: readonly string[];
  /** Ghosts show their pitch surfaces too. */
  readonly hasCones?: boolean;
}

/** By the id of the shaft: its number changes as shafts before it come and go. */
type Groups = Map<string, Group>;

const keep = (groups: Groups, shaft: string) => (group: Group | null) => {
  if (group) groups.set(shaft, group);
  else groups.delete(shaft);
};

function write(groups: Groups, matrices: Float64Array, numbers: ReadonlyMap<string, number>): void {
  for (const [shaft, group] of groups) {
    const index = numbers.get(shaft);
    if (index === undefined) continue;
    group.matrix.fromArray(matrices, index * MATRIX);
    group.matrixWorldNeedsUpdate = true;
  }
}

export const DriveScene = ({
  layout,
  turning,
  colours,
  ghosts = null,
  ghostGears = [],
  hasCones = false,
}: DriveProps) => {
  const { solved } = layout;
  const showSurfaces = useView((state) => state.showSurfaces);
  const turned = useRef<Groups>(new Map());
  const still = useRef<Groups>(new Map());
  const frames = useRef<Groups>(new Map());
  const isGhost = ghosts !== null;
  const shown = useMemo(() => new Set(ghosts ?? solved.drive.shafts.map((shaft) => shaft.id)), [ghosts, solved]);
  const gearsOf = useMemo(() => {
    const lists: GearOutline[][] = solved.drive.shafts.map(() => []);
    for (const outline of layout.gears) lists[outline.shaft]?.push(outline);
    return lists;
  }, [layout, solved]);
  const meshFrames = useMemo(() => {
    const byFrame = new Map<number, number[]>();
    solved.placement.meshes.forEach((placed, mesh) => {
      if (!placed) return;
      const frame = frameOfMesh(solved, mesh);
      byFrame.set(frame, [...(byFrame.get(frame) ?? []), mesh]);
    });
    return [...byFrame];
  }, [solved]);

  useFrame(() => {
    turning.update();
    const { shafts } = solved.index;
    write(turned.current, turning.poses.turned, shafts);
    write(still.current, turning.poses.still, shafts);
    write(frames.current, turning.poses.frame, shafts);
  }, -1);

  return (
    <SceneGroup name={isGhost ? "ghost" : "drive"}>
      {solved.drive.shafts.map((shaft, i) => {
        const rod = layout.rods[i];
        const isShown = shown.has(shaft.id);
        const gears = (gearsOf[i] ?? []).filter(
          ({ gear }) => isShown || ghostGears.includes(solved.drive.gears[gear]?.id ?? ""),
        );
        if (!rod || (!isShown && gears.length === 0)) return null;
        const look = shaftLook(layout, rod);
        return (
          <ShaftScene
            key={shaft.id}
            {...{ look, colours, isGhost, isShown, hasCones }}
            lookKey={JSON.stringify(look)}
            id={shaft.id}
            of={shaftName(solved.drive, i)}
            gears={gears.flatMap((outline) => {
              const gear = solved.drive.gears[outline.gear];
              const spec = toothSpec(solved.drive, solved.index, solved.placement, outline.gear);
              return gear ? { gear, outline, spec, rimMarks: layout.marks[outline.gear] ?? RIM_MARKS } : [];
            })}
            turned={turned.current}
            still={still.current}
          />
        );
      })}
      {showSurfaces &&
        !isGhost &&
        meshFrames.map(([frame, meshes]) => (
          <SceneGroup
            key={solved.drive.shafts[frame]?.id ?? ""}
            onObject={frame < 0 ? undefined : keep(frames.current, solved.drive.shafts[frame]?.id ?? "")}
          >
            {meshes.map((mesh) => (
              <ContactLine key={solved.drive.meshes[mesh]?.id} {...{ layout, mesh, colours }} />
            ))}
          </SceneGroup>
        ))}
    </SceneGroup>
  );
};

interface ShaftProps extends ShaftPartsProps {
  readonly id: string;
  /** The shaft's name. */
  readonly of: string;
  readonly gears: readonly Pick<GearProps, "gear" | "outline" | "spec" | "rimMarks">[];
  readonly isShown: boolean;
  readonly hasCones: boolean;
  /** Where its groups are taken down. */
  readonly turned: Groups;
  readonly still: Groups;
}

/** Whether two shafts look alike, wherever they stand: only their matrices differ then. */
const looksAlike = (a: ShaftProps, b: ShaftProps): boolean =>
  a.lookKey === b.lookKey &&
  a.colours === b.colours &&
  a.of === b.of &&
  a.isGhost === b.isGhost &&
  a.isShown === b.isShown &&
  a.hasCones === b.hasCones &&
  a.gears.length === b.gears.length &&
  a.gears.every((one, i) => {
    const other = b.gears[i];
    return (
      one.gear === other?.gear &&
      one.outline === other.outline &&
      one.spec === other.spec &&
      one.rimMarks === other.rimMarks
    );
  });

/** One shaft: what turns with it, and what stands beside it. */
const ShaftScene = memo(function ShaftScene({ id, of, gears, isShown, hasCones, turned, still, ...parts }: ShaftProps) {
  const { colours, isGhost, look } = parts;
  return (
    <SceneGroup>
      <SceneGroup onObject={keep(turned, id)} name={`shaft ${id}`} userData={{ shaft: id }}>
        {isShown && <TurningParts {...parts} />}
        {gears.map((one) => (
          <GearBody
            key={one.gear.id}
            {...one}
            {...{ colours, isGhost, hasCones, of }}
            shaft={id}
            stroke={look.stroke}
          />
        ))}
      </SceneGroup>
      <SceneGroup onObject={keep(still, id)} name={`beside ${id}`}>
        {isShown && <StandingParts {...parts} />}
      </SceneGroup>
    </SceneGroup>
  );
}, looksAlike);
