/** What is keyed to a shaft besides its gears (rod, crank, output disc) and what stands beside it (axis, arrow, motor, held bracket). */
import { memo } from "react";
import { type GearOutline, isShell, reachAcross, spokePlace } from "../engine/collisions/gear-outline";
import type { ArmPlace, RodPlace } from "../engine/collisions/rods";
import type { Port, Vec3 } from "../engine/drive/types";
import { useClock } from "../store/clock";
import { useClose } from "../store/close-look";
import { useTrouble } from "../store/trouble";
import { useView } from "../store/view";
import { type BenchLayout, isCrank } from "./bench-layout";
import { toGeometry, toLines } from "./gear-geometry";
import { useFlat, useLine, usePlain, useThrough } from "./materials";
import { useShaftLight } from "./pointed";
import { crankShape, discShape, heldShape, loadShape, motorShape } from "./port-shapes";
import { ringPlace, wirePart } from "./rings";
import { SceneLines, SceneMesh } from "./scene-objects";
import { barShape, dashDot, dashedRing, joinShapes, rodShape, roundArrow, wireRing } from "./shapes";
import { useShared } from "./shared";
import { type BenchColours, mix } from "./theme-colours";

/** All that the look of a shaft depends on: plain data, so that an equal one need not be rendered again. */
export interface ShaftLook {
  readonly id: string;
  readonly rod: RodPlace;
  readonly arms: readonly ArmPlace[];
  readonly spokes: readonly (readonly [Vec3, Vec3])[];
  readonly role: Port["role"] | null;
  readonly isCrank: boolean;
  /** Sign of its speed; 0 while it stands still or its speed isn't fixed. */
  readonly way: number;
  readonly unit: number;
  readonly stroke: number;
}

export function shaftLook(layout: BenchLayout, rod: RodPlace): ShaftLook {
  const { solved } = layout;
  const { shaft } = rod;
  return {
    id: solved.drive.shafts[shaft]?.id ?? "",
    rod,
    arms: layout.arms.filter(({ carrier }) => carrier === shaft),
    spokes: (solved.index.gearsOfShaft[shaft] ?? [])
      .flatMap((gear) => layout.outlines.get(gear) ?? [])
      .filter(isShell)
      .flatMap((outline) => spokesOf(outline, rod.side)),
    role: solved.drive.ports[solved.index.portOfShaft[shaft] ?? -1]?.role ?? null,
    isCrank: isCrank(solved, shaft),
    way: solved.motion.way[shaft] ?? 0,
    unit: layout.unit,
    stroke: layout.stroke,
  };
}

export interface ShaftProps {
  readonly look: ShaftLook;
  /** The look as text: equal looks are told by it. */
  readonly lookKey: string;
  readonly colours: BenchColours;
  readonly isGhost: boolean;
}

const looksAlike = (a: ShaftProps, b: ShaftProps): boolean =>
  a.lookKey === b.lookKey && a.colours === b.colours && a.isGhost === b.isGhost;

/** Three spokes from the shaft to the back of a ring, so that one sees what it is fixed to. */
function spokesOf(outline: GearOutline, side: 1 | -1): [Vec3, Vec3][] {
  const [behind] = outline.body.at(-1) ?? [0, 0];
  const z = spokePlace(outline, side);
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
export const TurningParts = memo(function TurningParts({ look, colours, isGhost }: ShaftProps) {
  const { id, rod, arms, spokes, role, stroke } = look;
  const light = useShaftLight(id);
  const posed = useView((state) => state.posed);
  const isBare = posed?.marks === false;
  const trouble = useTrouble("shaft", id);
  const hue = colours.shaft(rod.shaft);
  // Arms, spokes and rods stand before teeth that are looked at closely.
  const isSeenThrough = useClose(({ mesh }) => mesh !== null) || isGhost;
  const material = usePlain(mix(hue, colours.isDark ? "#ffffff" : "#000000", 0.08), isSeenThrough, light);
  const key = `rod ${rod.low} ${rod.high} ${rod.radius} ${JSON.stringify([arms, spokes])}`;
  const geometry = useShared(key, () =>
    toGeometry(
      joinShapes([
        rodShape(rod.low, rod.high, rod.radius),
        ...arms.map((arm) => barShape(arm.from, arm.to, rod.radius * 0.85)),
        ...spokes.map(([from, to]) => barShape(from, to, rod.radius * 0.45)),
      ]),
    ),
  );
  return (
    <>
      <SceneMesh geometry={geometry} material={material} order={isSeenThrough ? 2 : 0} />
      {role === "input" && look.isCrank && !isBare && (
        <PortBody shapeKey="crank" look={look} colour={mix(hue, colours.ink, 0.25)} />
      )}
      {role === "output" && (
        <PortBody shapeKey={isBare ? "disc" : "load"} look={look} colour={mix(hue, colours.surface, 0.25)} />
      )}
      {trouble !== undefined && !isGhost && !posed && <TroubleRings {...{ rod, stroke, colours, id }} />}
      {light && <RodRings {...{ rod, stroke, colours }} isSelected={light === "selected"} />}
    </>
  );
}, looksAlike);

/** What stands still beside the shaft, or rides with its carrier. */
export const StandingParts = memo(function StandingParts({ look, colours }: ShaftProps) {
  const { rod, role } = look;
  const hue = colours.shaft(rod.shaft);
  const beyond = 0.55 * look.unit;
  const [low, high] = [rod.low - beyond, rod.high + beyond];
  const width = look.stroke / 260;
  const axis = useShared(`axis ${low} ${high} ${width}`, () => toLines(dashDot(low, high, width)));
  const line = useLine(mix(hue, colours.ink, 0.25));
  return (
    <>
      <SceneLines geometry={axis} material={line} />
      <Arrow look={look} colours={colours} />
      {role === "input" && !look.isCrank && (
        <PortBody shapeKey="motor" look={look} colour={mix(colours.inkSoft, colours.surface, 0.35)} />
      )}
      {role === "held" && <PortBody shapeKey="held" look={look} colour={colours.inkSoft} />}
    </>
  );
}, looksAlike);

/** Goes round the shaft the way it turns as shown; not there while the shaft stands still or its speed isn't fixed. */
const Arrow = ({ look, colours }: Pick<ShaftProps, "look" | "colours">) => {
  const { id, rod } = look;
  const way = look.way * useClock((state) => state.direction);
  const { arrowRadius: radius } = rod;
  const wire = radius * 0.085;
  const geometry = useShared(`arrow ${radius} ${wire}`, () => toGeometry(roundArrow(radius, wire)));
  const material = useFlat(colours.shaft(rod.shaft));
  if (way === 0) return null;
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

const SHAPES = { crank: crankShape, load: loadShape, disc: discShape, motor: motorShape, held: heldShape };

const PortBody = ({
  shapeKey,
  look: { rod, unit },
  colour,
}: {
  readonly shapeKey: keyof typeof SHAPES;
  readonly look: ShaftLook;
  readonly colour: string;
}) => {
  const geometry = useShared(`${shapeKey} ${unit} ${rod.radius} ${rod.side}`, () =>
    toGeometry(SHAPES[shapeKey](unit, rod.radius, rod.side)),
  );
  const material = usePlain(colour);
  return <SceneMesh name={shapeKey} geometry={geometry} material={material} z={rod.side === 1 ? rod.high : rod.low} />;
};

interface RingProps extends Pick<ShaftLook, "rod" | "stroke"> {
  readonly colours: BenchColours;
}

/** Dashed rings along a rod that collides or sticks out of the space; its label says which. */
const TroubleRings = ({ rod, stroke, colours, id }: RingProps & Pick<ShaftLook, "id">) => {
  const wire = stroke * 0.005;
  const radius = rod.radius + 2 * wire;
  const part = wirePart(wire, radius);
  const geometry = useShared(`dashed rod ring ${part}`, () => toGeometry(dashedRing(1, part, 0, 6)));
  const material = useThrough(colours.warning);
  return RINGS.map((at) => (
    <SceneMesh
      key={at}
      name={`trouble shaft ${id}`}
      geometry={geometry}
      material={material}
      order={5}
      frame={ringPlace(radius, rod.low + at * (rod.high - rod.low))}
    />
  ));
};

/** Where they stand, as parts of the rod's length. */
const RINGS = [0.04, 0.35, 0.65, 0.96];

const RodRings = ({ rod, stroke, colours, isSelected }: RingProps & { readonly isSelected: boolean }) => {
  const wire = stroke * (isSelected ? 0.0065 : 0.004);
  const radius = rod.radius + 2.2 * wire;
  const part = wirePart(wire, radius);
  const geometry = useShared(`rod ring ${part}`, () => toGeometry(wireRing(1, part, 0, 32)));
  const material = useFlat(colours.focus, isSelected ? 1 : 0.75);
  return [rod.low, rod.high].map((z, end) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: the two ends.
    <SceneMesh key={end} geometry={geometry} material={material} frame={ringPlace(radius, z)} />
  ));
};
