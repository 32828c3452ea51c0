/** The contact line of every mesh and the common apex of its cones, in the one accent, seen through the bodies. */
import { memo } from "react";
import type { PlacedMesh, Vec3 } from "../engine/solved";
import { cross, dot, length, sub, unit } from "../engine/vector";
import { useClose } from "../store/close-look";
import type { BenchLayout } from "./bench-layout";
import { toGeometry } from "./gear-geometry";
import { useThrough } from "./materials";
import { useMeshLight } from "./pointed";
import { SceneMesh } from "./scene-objects";
import { barShape, joinShapes, turnedShape } from "./shapes";
import { useShared } from "./shared";
import type { BenchColours } from "./theme-colours";

export const ContactLine = ({
  layout,
  mesh,
  colours,
}: {
  readonly layout: BenchLayout;
  readonly mesh: number;
  readonly colours: BenchColours;
}) => {
  const { drive, index, placement } = layout.solved;
  const apex = placement.gears[index.gearsOfMesh[mesh]?.[0] ?? -1]?.apexPoint ?? null;
  return (
    <LineOf
      {...{ apex, colours }}
      id={drive.meshes[mesh]?.id ?? ""}
      placed={placement.meshes[mesh] ?? null}
      stroke={layout.stroke}
    />
  );
};

interface LineProps {
  readonly id: string;
  /** The same objects as long as the mesh stands where it stood: then it is not drawn anew. */
  readonly placed: PlacedMesh | null;
  readonly apex: Vec3 | null;
  readonly stroke: number;
  readonly colours: BenchColours;
}

const LineOf = memo(function LineOf({ id, placed, apex, stroke, colours }: LineProps) {
  const light = useMeshLight(id);
  // Seen closely, the lines along which flanks touch stand for it; those of other meshes would lie over them.
  const isTold = useClose(({ mesh: close, growth }) => close !== null && (close !== id || growth > 0));
  const [from, to] = placed?.contact ?? [[0, 0, 0] as Vec3, [0, 0, 0] as Vec3];
  const wire = stroke * (light ? 0.009 : 0.0045);
  // Drawn along z from the toe on, and stood where the mesh is: equal ones are one geometry, wherever they are moved to.
  const long = Math.max(length(sub(from, to)), 1e-9);
  const past = apex ? dot(sub(to, apex), unit(sub(from, to))) : null;
  const key = `contact ${long.toFixed(6)} ${past?.toFixed(6)} ${wire}`;
  const geometry = useShared(key, () =>
    toGeometry(
      joinShapes([
        barShape([0, 0, 0], [0, 0, long], wire, 8),
        ...(past === null ? [] : [barShape([0, 0, -past], [0, 0, 0], wire * 0.3, 6), ball([0, 0, -past], wire * 2.3)]),
      ]),
    ),
  );
  const material = useThrough(light ? colours.focus : colours.accent, 0.95);
  return placed && !isTold ? (
    <SceneMesh name={`contact ${id}`} geometry={geometry} material={material} order={5} frame={along(from, to)} />
  ) : null;
});

/** A frame with its origin at `to` and z towards `from`, column by column. */
function along(from: Vec3, to: Vec3): readonly number[] {
  const z = unit(sub(from, to));
  const x = unit(cross(Math.abs(z[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0], z));
  return [...x, 0, ...cross(z, x), 0, ...z, 0, ...to, 1];
}

function ball(centre: Vec3, radius: number) {
  const profile = Array.from({ length: 9 }, (_, k) => {
    const a = (k * Math.PI) / 8 - Math.PI / 2;
    return [Math.max(0, radius * Math.cos(a)), radius * Math.sin(a)] as const;
  });
  const shape = turnedShape(profile, 16);
  const positions = shape.positions.map((x, k) => x + (centre[k % 3] ?? 0));
  return { ...shape, positions };
}
