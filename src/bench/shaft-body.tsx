/** What is keyed to a shaft besides its gears (rod, crank, output disc) and what stands beside it (axis, arrow, motor, held bracket). */
import type { Port, Vec3 } from "../engine/drive/types";
import { sign } from "../engine/motion/rational";
import { useClock } from "../store/clock";
import { type BenchLayout, isCrank, type RodPlace } from "./bench-layout";
import { toGeometry, toLines } from "./gear-geometry";
import { type GearOutline, reachAcross, reachAlong } from "./gear-outline";
import { useFlat, useLine, usePlain } from "./materials";
import { useShaftLight } from "./pointed";
import { crankShape, heldShape, loadShape, motorShape } from "./port-shapes";
import { SceneLines, SceneMesh } from "./scene-objects";
import { barShape, dashDot, joinShapes, rodShape, roundArrow, wireRing } from "./shapes";
import { useShared } from "./shared";
import { type BenchColours, mix } from "./theme-colours";

interface ShaftProps {
  readonly layout: BenchLayout;
  readonly rod: RodPlace;
  readonly colours: BenchColours;
  readonly isGhost?: boolean;
}

const portOf = (layout: BenchLayout, shaft: number): Port | undefined =>
  layout.solved.drive.ports[layout.solved.index.portOfShaft[shaft] ?? -1];

/** Rings and internal cones, whose bodies do not reach their shaft. */
const isShell = ({ coneDistance, pitchAngle }: GearOutline): boolean =>
  coneDistance === null ? pitchAngle > 1 : pitchAngle > Math.PI / 2 + 1e-6;

/** Three spokes from the shaft to the back of a ring, so that one sees what it is fixed to. */
function spokesOf(outline: GearOutline, side: 1 | -1): [Vec3, Vec3][] {
  const [low, high] = reachAlong(outline);
  // A ring at the face where its shaft goes on; an internal cone behind its heel, clear of its teeth.
  const [behind, place] = outline.body.at(-1) ?? [0, 0];
  const z = outline.coneDistance === null ? (side === 1 ? high : low) : place;
  const r = outline.coneDistance === null ? reachAcross(outline) * 0.97 : behind * 0.98;
  return [0, 1, 2].map((k) => {
    const a = (2 * Math.PI * k) / 3 + Math.PI / 2;
    return [
      [0, 0, z],
      [r * Math.cos(a), r * Math.sin(a), z],
    ];
  });
}

/** What turns with the shaft. */
export const TurningParts = ({ layout, rod, colours, isGhost = false }: ShaftProps) => {
  const shaft = layout.solved.drive.shafts[rod.shaft];
  const light = useShaftLight(shaft?.id ?? "");
  const port = portOf(layout, rod.shaft);
  const hue = colours.shaft(rod.shaft);
  const material = usePlain(mix(hue, colours.isDark ? "#ffffff" : "#000000", 0.08), isGhost, light);
  const arms = layout.arms.filter(({ carrier }) => carrier === rod.shaft);
  const size = `${rod.low} ${rod.high} ${rod.radius}`;
  const shells = layout.gears.filter((outline) => outline.shaft === rod.shaft && isShell(outline));
  const spokes = shells.flatMap((outline) => spokesOf(outline, rod.side));
  const key = `rod ${size} ${JSON.stringify([arms, spokes])}`;
  const geometry = useShared(key, () =>
    toGeometry(
      joinShapes([
        rodShape(rod.low, rod.high, rod.radius),
        ...arms.map((arm) => barShape(arm.from, arm.to, rod.radius * 0.85)),
        ...spokes.map(([from, to]) => barShape(from, to, rod.radius * 0.45)),
      ]),
    ),
  );
  const end = rod.side === 1 ? rod.high : rod.low;
  return (
    <>
      <SceneMesh geometry={geometry} material={material} order={isGhost ? 2 : 0} />
      {port?.role === "input" && isCrank(layout.solved, rod.shaft) && (
        <PortBody shapeKey="crank" {...{ layout, rod, end }} colour={mix(hue, colours.ink, 0.25)} />
      )}
      {port?.role === "output" && (
        <PortBody shapeKey="load" {...{ layout, rod, end }} colour={mix(hue, colours.surface, 0.25)} />
      )}
      {light && <RodRings {...{ layout, rod, colours }} isSelected={light === "selected"} />}
    </>
  );
};

/** What stands still beside the shaft, or rides with its carrier. */
export const StandingParts = ({ layout, rod, colours }: ShaftProps) => {
  const port = portOf(layout, rod.shaft);
  const hue = colours.shaft(rod.shaft);
  const end = rod.side === 1 ? rod.high : rod.low;
  const beyond = 0.55 * layout.unit;
  const [low, high] = [rod.low - beyond, rod.high + beyond];
  const width = layout.stroke / 260;
  const axis = useShared(`axis ${low} ${high} ${width}`, () => toLines(dashDot(low, high, width)));
  const line = useLine(mix(hue, colours.ink, 0.25));
  return (
    <>
      <SceneLines geometry={axis} material={line} />
      <Arrow {...{ layout, rod, colours }} />
      {port?.role === "input" && !isCrank(layout.solved, rod.shaft) && (
        <PortBody shapeKey="motor" {...{ layout, rod, end }} colour={mix(colours.inkSoft, colours.surface, 0.35)} />
      )}
      {port?.role === "held" && <PortBody shapeKey="held" {...{ layout, rod, end }} colour={colours.inkSoft} />}
    </>
  );
};

/** Goes round the shaft the way it turns as shown; not there while the shaft stands still or its speed isn't fixed. */
const Arrow = ({ layout, rod, colours }: ShaftProps) => {
  const shown = useClock((state) => state.direction);
  const speed = layout.solved.motion.speeds[rod.shaft] ?? null;
  const way = speed === null ? 0 : sign(speed) * shown;
  const { arrowRadius: radius } = rod;
  const wire = radius * 0.085;
  const geometry = useShared(`arrow ${radius} ${wire}`, () => toGeometry(roundArrow(radius, wire)));
  const material = useFlat(colours.shaft(rod.shaft));
  if (way === 0) return null;
  const id = layout.solved.drive.shafts[rod.shaft]?.id ?? "";
  // Half a turn about x reverses the sense.
  return (
    <SceneMesh
      name={`arrow ${id}`}
      userData={{ way }}
      geometry={geometry}
      material={material}
      z={rod.arrowAt}
      turnX={way > 0 ? 0 : Math.PI}
    />
  );
};

const SHAPES = { crank: crankShape, load: loadShape, motor: motorShape, held: heldShape };

const PortBody = ({
  shapeKey,
  layout,
  rod,
  end,
  colour,
}: {
  readonly shapeKey: keyof typeof SHAPES;
  readonly layout: BenchLayout;
  readonly rod: RodPlace;
  readonly end: number;
  readonly colour: string;
}) => {
  const geometry = useShared(`${shapeKey} ${layout.unit} ${rod.radius} ${rod.side}`, () =>
    toGeometry(SHAPES[shapeKey](layout.unit, rod.radius, rod.side)),
  );
  const material = usePlain(colour);
  return <SceneMesh name={shapeKey} geometry={geometry} material={material} z={end} />;
};

const RodRings = ({ layout, rod, colours, isSelected }: ShaftProps & { readonly isSelected: boolean }) => {
  const wire = layout.stroke * (isSelected ? 0.0065 : 0.004);
  const radius = rod.radius + 2.2 * wire;
  const key = `rod rings ${radius} ${wire} ${rod.low} ${rod.high}`;
  const geometry = useShared(key, () =>
    toGeometry(joinShapes([wireRing(radius, wire, rod.low, 32), wireRing(radius, wire, rod.high, 32)])),
  );
  const material = useFlat(colours.focus, isSelected ? 1 : 0.75);
  return <SceneMesh geometry={geometry} material={material} />;
};
