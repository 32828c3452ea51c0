/** The arc between the two axes of the bevel pair that can be leaned, in the accent; the knob on it is an element of the page. */
import { useMemo, useRef } from "react";
import type { Group } from "three";
import { MATRIX } from "../engine/motion/pose-at";
import { cross, scale } from "../engine/vector";
import { useClose } from "../store/close-look";
import { type Part, useView } from "../store/view";
import type { BenchLayout } from "./bench-layout";
import { toGeometry } from "./gear-geometry";
import { arcPoint, type LeanArcPlace, leanArcFor } from "./lean";
import { useThrough } from "./materials";
import { wirePart } from "./rings";
import { SceneGroup, SceneMesh, useFrame } from "./scene-objects";
import { barShape, joinShapes } from "./shapes";
import { useShared } from "./shared";
import { shownDrive } from "./shown-drive";
import type { BenchColours } from "./theme-colours";

/** Degrees of the arc that one straight piece stands for. */
const PIECE = 4.5;

/** The arc's plane in its carrier's coordinates, sized to its radius, as a matrix, column by column. */
function planeOf({ apex, stays, across, radius }: LeanArcPlace): number[] {
  const axes = [stays, across, cross(stays, across)].map((axis) => scale(axis, radius));
  return [...axes.flatMap((axis) => [...axis, 0]), ...apex, 1];
}

interface ArcProps {
  readonly layout: BenchLayout;
  readonly colours: BenchColours;
  /** Left out: what is selected. */
  readonly part?: Part | undefined;
}

export const LeanArc = ({ layout, colours, part }: ArcProps) => {
  const isClose = useClose(({ mesh }) => mesh !== null);
  const selected = useView((state) => part ?? state.selection);
  const selection = isClose ? null : selected;
  const lean = useMemo(() => leanArcFor(layout.solved, selection), [layout, selection]);
  const group = useRef<Group>(null);
  const wire = layout.stroke * 0.003;
  const thickness = lean ? wirePart(wire, lean.radius) : 0;
  const key = lean ? `lean ${lean.angle} ${thickness}` : "lean none";
  const geometry = useShared(key, () => {
    if (!lean) return toGeometry(joinShapes([]));
    // In its own plane and of radius 1: wherever the pair goes and however it grows, the same arc goes with it.
    const flat = { ...lean, radius: 1, apex: [0, 0, 0], stays: [1, 0, 0], across: [0, 1, 0] } as const;
    const pieces = Math.max(1, Math.ceil(lean.angle / PIECE));
    const points = Array.from({ length: pieces + 1 }, (_, k) => arcPoint(flat, (lean.angle * k) / pieces));
    const bars = points.slice(1).map((point, k) => barShape(points[k] ?? point, point, thickness, 6));
    const legs = [0, lean.angle].map((angle) => barShape(flat.apex, arcPoint(flat, angle), thickness * 0.6, 6));
    return toGeometry(joinShapes([...bars, ...legs]));
  });
  const material = useThrough(colours.accent, 0.9);
  useFrame(() => {
    if (!group.current || !lean || lean.frame < 0) return;
    group.current.matrix.fromArray(shownDrive().turning.poses.frame, lean.frame * MATRIX);
    group.current.matrixWorldNeedsUpdate = true;
  }, 0);
  if (!lean) return null;
  return (
    <SceneGroup
      key={lean.frame}
      name="lean arc"
      onObject={(object) => {
        group.current = object;
      }}
    >
      <SceneMesh geometry={geometry} material={material} order={6} frame={planeOf(lean)} />
    </SceneGroup>
  );
};
