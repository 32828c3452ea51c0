/** The space that the drive must fit, as the edges of its box. A side that is open has no edges across it. */
import type { Vec3 } from "../engine/solved";
import { type SpaceBox, useSpaceBox } from "../store/trouble";
import type { BenchLayout } from "./bench-layout";
import { toGeometry } from "./gear-geometry";
import { useFlat } from "./materials";
import { SceneMesh } from "./scene-objects";
import { barShape, joinShapes } from "./shapes";
import { useShared } from "./shared";
import type { BenchColours } from "./theme-colours";

/** Parts of the drive's own size by which the edges along an open side go on beyond it. */
const BEYOND = 0.12;

/** The edges of the box: each runs along one side, at either end of the two others. */
export function spaceEdges({ sides, low, high }: SpaceBox): readonly (readonly [Vec3, Vec3])[] {
  const ends = ([0, 1, 2] as const).map((k): readonly [number, number] => {
    const beyond = BEYOND * (high[k] - low[k]);
    return sides[k] ?? [low[k] - beyond, high[k] + beyond];
  });
  const edges: (readonly [Vec3, Vec3])[] = [];
  for (const along of [0, 1, 2] as const) {
    const across = [0, 1, 2].filter((k) => k !== along) as [0 | 1 | 2, 0 | 1 | 2];
    for (const i of [0, 1] as const) {
      for (const j of [0, 1] as const) {
        // Between two open sides there is no edge.
        if (!sides[across[0]] && !sides[across[1]]) continue;
        // Across an open side only the edges of the sides that are there are drawn, at the ends of the open one not at all.
        if (sides[along] && (!sides[across[0]] || !sides[across[1]])) continue;
        const from: [number, number, number] = [0, 0, 0];
        const to: [number, number, number] = [0, 0, 0];
        for (const [k, end] of [
          [across[0], i],
          [across[1], j],
        ] as const) {
          from[k] = to[k] = ends[k]?.[end] ?? 0;
        }
        from[along] = ends[along]?.[0] ?? 0;
        to[along] = ends[along]?.[1] ?? 0;
        edges.push([from, to]);
      }
    }
  }
  return edges;
}

interface FrameProps {
  readonly layout: BenchLayout;
  readonly colours: BenchColours;
}

export const SpaceFrame = (props: FrameProps) => {
  const box = useSpaceBox();
  return box && <Frame {...props} box={box} />;
};

const Frame = ({ layout, colours, box }: FrameProps & { readonly box: SpaceBox }) => {
  const wire = layout.stroke * 0.002;
  const geometry = useShared(`space ${JSON.stringify(box)} ${wire}`, () =>
    toGeometry(joinShapes(spaceEdges(box).map(([from, to]) => barShape(from, to, wire, 6)))),
  );
  const material = useFlat(colours.inkSoft);
  return <SceneMesh name="space" geometry={geometry} material={material} />;
};
