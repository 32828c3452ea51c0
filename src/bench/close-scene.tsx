/** What a mesh that is selected or looked at closely adds to the scene: the path of contact, the lines along which flanks touch now, and the section. */
import { useEffect, useMemo, useRef } from "react";
import type { Group } from "three";
import type { GearOutline } from "../engine/collisions/gear-outline";
import { frameOfMesh, MATRIX } from "../engine/motion/pose-at";
import type { Vec3 } from "../engine/solved";
import { type ContactPath, contactPath, type FlankSide, touching, touchingSides } from "../engine/teeth/contact-path";
import { grownSpec } from "../engine/teeth/grown";
import { lineOfAction } from "../engine/teeth/line-of-action";
import { partOfFace, toothSection } from "../engine/teeth/section";
import { QUALITIES, toothSpec } from "../engine/teeth/spec";
import { along, cross, DEGREE, length, scale, sub, unit } from "../engine/vector";
import { useClose } from "../store/close-look";
import type { BenchLayout } from "./bench-layout";
import { carryEye, setFront } from "./camera";
import { aimOf, closeOrbit, frontOf, lookBack, lookIn } from "./close-eye";
import { toGeometry, toLines } from "./gear-geometry";
import { useSection, useThrough, useThroughLine } from "./materials";
import { SceneGroup, SceneLines, SceneMesh, useFrame } from "./scene-objects";
import { rodShape } from "./shapes";
import { useShared } from "./shared";
import { type BenchColours, mix } from "./theme-colours";
import { directionAt, inFrame, localRay, type Turning } from "./turning";

interface CloseProps {
  readonly layout: BenchLayout;
  readonly turning: Turning;
  readonly colours: BenchColours;
}

interface MeshProps extends CloseProps {
  /** Of the mesh. */
  readonly id: string;
  /** Whether it is looked at closely; else only what touches is drawn. */
  readonly isClose: boolean;
}

export const CloseScene = ({ id, isClose, ...props }: MeshProps) => {
  const { solved } = props.layout;
  const mesh = solved.index.meshes.get(id) ?? -1;
  const path = useMemo(() => contactPath(solved, mesh), [solved, mesh]);
  const growth = useClose((state) => state.growth);
  const grown = useMemo(() => contactPath(solved, mesh, growth), [solved, mesh, growth]);
  if (!path) return null;
  return (
    <>
      {isClose && <CloseEye {...props} path={path} />}
      {isClose && grown && <Action {...props} path={grown} />}
      {grown && <Touch {...props} path={grown} />}
      {isClose && <Sections {...props} path={path} />}
    </>
  );
};

interface PathProps extends CloseProps {
  readonly path: ContactPath;
}

/** Glides there, goes along with a mesh that a carrier takes round, and glides back at the end. */
const CloseEye = ({ layout, turning, path }: PathProps) => {
  const from = useClose((state) => state.from);
  const { solved } = layout;
  const frame = frameOfMesh(solved, path.mesh);
  const aimed = useClose((state) => state.aimed);
  const before = useRef<Vec3 | null>(null);
  useEffect(() => () => lookBack(), []);
  // An edit that moves the contact or changes its size takes the eye along; any other leaves it where it is.
  const gear = solved.drive.gears[path.gear];
  const place = [...aimOf(solved, path, from), gear && "module" in gear ? gear.module : 1]
    .map((x) => x.toFixed(3))
    .join(" ");
  // biome-ignore lint/correctness/useExhaustiveDependencies: the place stands for all of the drive that matters here.
  useEffect(() => {
    before.current = null;
    lookIn(closeOrbit(solved, path, from, turning.poses, frame));
  }, [path.mesh, from, aimed, place]);
  useEffect(() => {
    setFront(frontOf(layout, path, from), frame >= 0);
    return () => setFront([]);
  }, [layout, path, from, frame]);
  useFrame(() => {
    if (frame < 0) return;
    const target = inFrame(turning.poses, frame, path.line(path.pitch, 1)[0]);
    if (before.current) carryEye(sub(target, before.current));
    before.current = target;
  }, -3);
  return null;
};

/** Steps of the drawn path between its ends. */
const STEPS = 24;
/** Radius of a touching line, in modules. */
const WIRE = 0.05;

const hide = (group: Group): void => {
  group.visible = false;
};

/** Takes a group along with the carrier that takes a mesh round; gives what the group is handed to. */
function useCarried({ poses }: Turning, frame: number): (group: Group | null) => void {
  const carried = useRef<Group | null>(null);
  useFrame(() => {
    if (!carried.current || frame < 0) return;
    carried.current.matrix.fromArray(poses.frame, frame * MATRIX);
    carried.current.matrixWorldNeedsUpdate = true;
  }, -0.5);
  return (group) => {
    carried.current = group;
  };
}

const Touch = ({ layout, turning, colours, path }: PathProps) => {
  const { solved } = layout;
  const id = solved.drive.meshes[path.mesh]?.id ?? "";
  const frame = frameOfMesh(solved, path.mesh);
  const section = useClose((state) => state.section);
  const sides = useMemo(() => touchingSides(solved, path), [solved, path]);
  const most = sides.length * (Math.ceil(path.ratio) + 1);
  const bars = useRef<(Group | null)[]>([]);
  const carried = useCarried(turning, frame);
  const spec = solved.drive.gears[path.gear];
  const wire = WIRE * (spec && "module" in spec ? spec.module : 1);

  useFrame(() => {
    const azimuth = azimuthNow(path, turning, frame, spec?.phase ?? 0);
    let next = 0;
    for (const side of sides) {
      for (const p of touching(path, azimuth, side)) {
        const bar = bars.current[next++];
        if (!bar) continue;
        // With a section only what touches in it.
        if (section === null) place(bar, path.line(p, side), wire);
        else place(bar, pieceAt(path.line(p, side), section, wire), 2 * wire);
      }
    }
    for (; next < bars.current.length; next++) {
      const bar = bars.current[next];
      if (bar) hide(bar);
    }
  }, -0.5);

  const points = useMemo(() => pathLines(path, sides, section), [path, sides, section]);
  const lines = useShared(`path ${points.join(" ")}`, () => toLines(points));
  const rod = useShared("touch rod", () => toGeometry(rodShape(0, 1, 1, 12)));
  const thin = useThroughLine(colours.accent);
  const strong = useThrough(colours.accent);
  return (
    <SceneGroup name={`touch ${id}`} onObject={carried}>
      <SceneLines name={`path ${id}`} geometry={lines} material={thin} order={6} />
      {Array.from({ length: most }, (_, k) => (
        <SceneGroup
          // biome-ignore lint/suspicious/noArrayIndexKey: the bars are all alike and stay.
          key={k}
          onObject={(group) => {
            bars.current[k] = group;
            if (group) hide(group);
          }}
        >
          <SceneMesh geometry={rod} material={strong} order={7} />
        </SceneGroup>
      ))}
    </SceneGroup>
  );
};

/** Half the length of the line of action as it is drawn, and its radius, in modules. */
const ACTION = 3.5;
const ACTION_WIRE = 0.025;

/** The line along which a tooth pushes the other, across the contact line: through the pitch point, in the section or at mid-face. */
const Action = ({ layout, turning, colours, path }: PathProps) => {
  const isShown = useClose(({ action }) => action);
  const section = useClose((state) => state.section);
  const { solved } = layout;
  const frame = frameOfMesh(solved, path.mesh);
  const carried = useCarried(turning, frame);
  const gear = solved.drive.gears[path.gear];
  const module = gear && "module" in gear ? gear.module : 1;
  const sides = useMemo(() => touchingSides(solved, path), [solved, path]);
  const rod = useShared("touch rod", () => toGeometry(rodShape(0, 1, 1, 12)));
  const strong = useThrough(colours.accent);
  if (!isShown) return null;
  return (
    <SceneGroup onObject={carried}>
      {sides.map((side) => {
        const { point, direction } = lineOfAction(solved, path, side, section ?? 0.5);
        const ends = [-ACTION, ACTION].map((reach) => along(point, direction, reach * module)) as [Vec3, Vec3];
        return (
          <SceneGroup
            key={`${side} ${section}`}
            name={`action ${solved.drive.meshes[path.mesh]?.id} ${side}`}
            onObject={(bar) => {
              if (bar) place(bar, ends, ACTION_WIRE * module);
            }}
          >
            <SceneMesh geometry={rod} material={strong} order={7} />
          </SceneGroup>
        );
      })}
    </SceneGroup>
  );
};

/** Azimuth of the gear's tooth 0 from the pitch point, as it stands now in the frame of the mesh. */
function azimuthNow(path: ContactPath, { poses }: Turning, frame: number, phase: number): number {
  const tooth: Vec3 = [Math.cos(phase * DEGREE), Math.sin(phase * DEGREE), 0];
  const direction = directionAt(poses.turned, path.shaft, tooth);
  const still = frame < 0 ? direction : localRay(poses.frame, frame, { origin: [0, 0, 0], direction }).direction;
  return path.azimuthOf(still);
}

/** Lays a rod of length and radius 1 along a line. */
function place(bar: Group, [from, to]: readonly [Vec3, Vec3], radius: number): void {
  const d = sub(to, from);
  const z = unit(d);
  const x = unit(cross(z, Math.abs(z[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const y = cross(z, x);
  const [u, v] = [scale(x, radius), scale(y, radius)];
  bar.matrix.fromArray([...u, 0, ...v, 0, ...d, 0, ...from, 1]);
  bar.matrixWorldNeedsUpdate = true;
  bar.visible = length(d) > 0;
}

/** The piece of a line that lies within `reach` mm of the part `part` of its way. */
function pieceAt([from, to]: readonly [Vec3, Vec3], part: number, reach: number): readonly [Vec3, Vec3] {
  const d = sub(to, from);
  const size = length(d) || 1;
  return [along(from, d, part - reach / size), along(from, d, part + reach / size)];
}

/** The path at the heel and at the toe, and the lines that close it to a field of contact. */
function pathLines(path: ContactPath, sides: readonly FlankSide[], section: number | null): Float32Array {
  const points: number[] = [];
  if (path.last <= path.first) return new Float32Array(0);
  for (const side of sides) {
    let before: readonly [Vec3, Vec3] | null = null;
    for (let k = 0; k <= STEPS; k++) {
      const whole = path.line(path.first + ((path.last - path.first) * k) / STEPS, side);
      const now = section === null ? whole : pieceAt(whole, section, 0);
      if (before) points.push(...before[0], ...now[0], ...before[1], ...now[1]);
      if (k === 0 || k === STEPS) points.push(...now[0], ...now[1]);
      before = now;
    }
  }
  return Float32Array.from(points);
}

const Sections = ({ layout, turning, colours, path }: PathProps) => {
  const isShown = useClose(({ section }) => section !== null);
  if (!isShown) return null;
  return (layout.solved.index.gearsOfMesh[path.mesh] ?? []).map((gear) => {
    const outline = layout.outlines.get(gear);
    return outline && <Section key={gear} {...{ layout, turning, colours, path, outline }} />;
  });
};

/** Drawn over the bodies, so that it is seen wherever it stands between heel and toe. */
const Section = ({ layout, turning, colours, path, outline }: PathProps & { readonly outline: GearOutline }) => {
  const { solved } = layout;
  const part = useClose(({ section }) => section ?? 0);
  const growth = useClose((state) => state.growth);
  const group = useRef<Group | null>(null);
  const { fill, lines } = useMemo(() => {
    const spec = toothSpec(solved.drive, solved.index, solved.placement, outline.gear, QUALITIES.draft);
    const made = toothSection(grownSpec(spec, growth), partOfFace(solved, path.mesh, outline.gear, part));
    const normals = new Float32Array(made.corners.length);
    return {
      fill: toGeometry({ positions: made.corners, normals, indices: made.triangles }),
      lines: toLines(made.lines),
    };
  }, [solved, path, outline.gear, part, growth]);
  useEffect(
    () => () => {
      fill.dispose();
      lines.dispose();
    },
    [fill, lines],
  );
  useFrame(() => {
    group.current?.matrix.fromArray(turning.poses.turned, outline.shaft * MATRIX);
    if (group.current) group.current.matrixWorldNeedsUpdate = true;
  }, -0.5);
  const hue = colours.shaft(outline.shaft);
  const inside = useSection(mix(hue, colours.surface, 0.55));
  const stroke = useThroughLine(mix(hue, colours.ink, 0.35));
  const gear = solved.drive.gears[outline.gear];
  return (
    <SceneGroup
      onObject={(made) => {
        group.current = made;
      }}
    >
      <SceneGroup name={`section ${gear?.id}`} z={outline.at} turnZ={(gear?.phase ?? 0) * DEGREE}>
        <SceneMesh geometry={fill} material={inside} order={5} />
        <SceneLines geometry={lines} material={stroke} order={5} />
      </SceneGroup>
    </SceneGroup>
  );
};
