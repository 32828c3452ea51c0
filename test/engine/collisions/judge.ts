/** The outside judge: manifold-3d, a general library for solids, turns half sections into solids and says what they share and how far they are apart. */
import Module from "manifold-3d";
import type { Profile } from "../../../src/engine/collisions/profile";
import type { Turned } from "../../../src/engine/collisions/turned";

const wasm = await Module();
wasm.setup();
export type Solid = InstanceType<typeof wasm.Manifold>;

/** Sides of the judge's bodies: a circle is off by a third of a thousandth of its radius. */
export const SIDES = 128;

const turnedSolid = ({ radii, places }: Profile): Solid => {
  const corners = [...radii].map((r, i) => [r, places[i] ?? 0] as [number, number]);
  const section = new wasm.CrossSection([corners]);
  const solid = section.revolve(SIDES);
  section.delete();
  return solid;
};

/** The body in the world. */
export function solidOf({ profile, origin, axis }: Turned): Solid {
  const local = turnedSolid(profile);
  const [x, y, z] = axis;
  const [hx, hy, hz] = Math.abs(x) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const d = hx * x + hy * y + hz * z;
  const raw = [hx - d * x, hy - d * y, hz - d * z];
  const size = Math.hypot(...raw);
  const [ux = 0, uy = 0, uz = 0] = raw.map((part) => part / size);
  const [vx, vy, vz] = [y * uz - z * uy, z * ux - x * uz, x * uy - y * ux];
  const [ox, oy, oz] = origin;
  const placed = local.transform([ux, uy, uz, 0, vx, vy, vz, 0, x, y, z, 0, ox, oy, oz, 1]);
  local.delete();
  return placed;
}

/** Least distance, mm, looked for no further than `most`; and the common volume, mm³. */
export function judge(a: Turned, b: Turned, most: number): { readonly gap: number; readonly volume: number } {
  const [first, second] = [solidOf(a), solidOf(b)];
  const common = first.intersect(second);
  const answer = { gap: first.minGap(second, most), volume: common.volume() };
  for (const solid of [first, second, common]) solid.delete();
  return answer;
}

/** Part of a ball that lies outside of a body. */
export function partOutside(body: Turned, centre: readonly [number, number, number], radius: number): number {
  const solid = solidOf(body);
  const ball = wasm.Manifold.sphere(radius, 48);
  const placed = ball.translate([centre[0], centre[1], centre[2]]);
  const left = placed.subtract(solid);
  const part = left.volume() / placed.volume();
  for (const one of [solid, ball, placed, left]) one.delete();
  return part;
}
