/** One gear: its body with rim marks, its lines, its translucent pitch surface, and a ring round it while it is lit. */
import { memo, useMemo } from "react";
import { atOrigin, type GearOutline, isShell, reachAcross, reachAlong } from "../engine/collisions/gear-outline";
import type { Gear } from "../engine/drive/types";
import type { ToothSpec } from "../engine/teeth/spec";
import { DEGREE } from "../engine/vector";
import { useClose } from "../store/close-look";
import { useDemo } from "../store/demo";
import { useTrouble } from "../store/trouble";
import { useView } from "../store/view";
import { type BodyDetail, bodyGeometry, geometryKey, lineGeometry, specAt, toGeometry } from "./gear-geometry";
import { useLevel } from "./levels";
import { useBody, useFlat, useLine, useSurface, useThrough } from "./materials";
import { useGearLight } from "./pointed";
import { markShape } from "./rim-marks";
import { ringPlace, wirePart } from "./rings";
import { SceneGroup, SceneLines, SceneMesh } from "./scene-objects";
import { bandsShape, dashedRing, wireRing } from "./shapes";
import { useBuilt, useShared } from "./shared";
import { type BenchColours, mix } from "./theme-colours";

export interface GearProps {
  readonly gear: Gear;
  readonly shaft: string;
  /** The shaft's name. */
  readonly of: string;
  /** The same objects as long as this gear and its mates are unchanged: then it is not rendered again, wherever its shaft went. */
  readonly outline: GearOutline;
  readonly spec: ToothSpec;
  /** Marks on its rim. */
  readonly rimMarks: number;
  readonly stroke: number;
  readonly colours: BenchColours;
  readonly isGhost?: boolean;
  /** A ghost that shows its pitch surface too. */
  readonly hasCones?: boolean;
}

export const GearBody = memo(function GearBody({
  gear,
  shaft,
  of,
  outline: placed,
  spec,
  rimMarks,
  stroke,
  colours,
  isGhost = false,
  hasCones = false,
}: GearProps) {
  const outline = useMemo(() => atOrigin(placed), [placed]);
  const drawing = useView((state) => state.drawing);
  const showTeeth = useView((state) => state.showTeeth);
  const showSurfaces = useView((state) => state.showSurfaces);
  const posed = useView((state) => state.posed);
  const trouble = useTrouble("gear", gear.id);
  const light = useGearLight(gear.id, shaft);
  /** Null outside of a close look. */
  const lookedAt = useClose(({ gears, growth }) => (gears.includes(gear.id) ? growth : null));
  const shown = useDemo(({ shown }) => shown?.growth ?? null);
  const growth = lookedAt ?? shown;
  // Seen through, so that the section in it is.
  const isCut = useClose(({ gears, section }) => section !== null && gears.includes(gear.id));
  // From the side a ring would hide all that it goes round.
  const isInTheWay = useClose(({ gears, from }) => from === "side" && gears.includes(gear.id)) && isShell(placed);
  const level = useLevel(gear.id);
  const detail: BodyDetail = drawing === "full" ? level : "smooth";
  // Seen closely the teeth tell how it turns; what is smooth needs its marks.
  const isTelling = growth !== null && growth > 0 && detail !== "smooth";
  const marks = isTelling || posed?.marks === false ? 0 : rimMarks;
  const hue = colours.shaft(outline.shaft);
  return (
    <SceneGroup
      name={`gear ${gear.id}`}
      z={placed.at}
      turnZ={gear.phase * DEGREE}
      userData={{ gear: gear.id, shaft, of }}
    >
      {(showTeeth || growth !== null) && (
        <Body
          {...{ spec, outline, colours, detail, marks, hue, light }}
          growth={growth ?? 1}
          isGhost={isGhost || isCut || isInTheWay}
        />
      )}
      {showSurfaces && (!isGhost || hasCones) && (
        <PitchSurface {...{ outline, colours, marks, hue }} isAlone={!showTeeth} />
      )}
      {trouble !== undefined && !isGhost && !posed && <TroubleRing {...{ stroke, outline, colours }} id={gear.id} />}
      {light && growth === null && <LightRing {...{ stroke, outline, colours }} isSelected={light === "selected"} />}
    </SceneGroup>
  );
});

interface PieceProps extends Pick<GearProps, "outline" | "spec" | "colours"> {
  readonly detail: BodyDetail;
  /** Part of their height that the teeth are drawn with. */
  readonly growth: number;
  readonly marks: number;
  readonly hue: string;
  readonly light: ReturnType<typeof useGearLight>;
  readonly isGhost: boolean;
}

const Body = ({ spec, outline, colours, isGhost, detail, growth, marks, hue, light }: PieceProps) => {
  const drawn = useMemo(() => specAt(spec, detail, growth), [spec, detail, growth]);
  const key = geometryKey(drawn, marks, detail);
  const geometry = useBuilt(`gear ${key}`, () => bodyGeometry(drawn, outline, marks, detail, growth));
  const lines = useBuilt(`lines ${key}`, () => lineGeometry(drawn, outline, detail));
  const material = useBody(hue, colours, light, isGhost);
  const stroke = useLine(
    mix(hue, colours.isDark ? "#0a0f13" : colours.ink, colours.isDark ? 0.75 : 0.6),
    isGhost ? 0.4 : 0.85,
  );
  return (
    <>
      {geometry && <SceneMesh geometry={geometry} material={material} order={isGhost ? 2 : 0} />}
      {lines && <SceneLines geometry={lines} material={stroke} order={isGhost ? 2 : 0} />}
    </>
  );
};

const PitchSurface = ({
  outline,
  colours,
  marks,
  hue,
  isAlone,
}: Pick<PieceProps, "outline" | "colours" | "marks" | "hue"> & { readonly isAlone: boolean }) => {
  const { pitch, face, at, outward, pitchAngle, pitchRadius, coneDistance } = outline;
  const size = `${JSON.stringify(pitch)} ${marks} ${face} ${at} ${outward} ${pitchAngle} ${pitchRadius} ${coneDistance}`;
  const geometry = useShared(`pitch ${size}`, () => toGeometry(bandsShape([outline.pitch], 72)));
  const material = useSurface(hue, (colours.isDark ? 0.2 : 0.16) * (isAlone ? 2.4 : 1));
  return (
    <>
      <SceneMesh geometry={geometry} material={material} order={3} />
      {isAlone && marks > 0 && <BareMarks {...{ outline, marks, size }} colour={mix(hue, colours.ink, 0.45)} />}
    </>
  );
};

/** Without teeth the marks lie on the pitch surface itself. */
const BareMarks = ({
  outline,
  marks,
  size,
  colour,
}: {
  readonly outline: GearOutline;
  readonly marks: number;
  readonly size: string;
  readonly colour: string;
}) => {
  const geometry = useShared(`bare marks ${size}`, () => toGeometry(markShape(outline, marks, true)));
  const material = useFlat(colour);
  return <SceneMesh geometry={geometry} material={material} order={4} />;
};

/** A dashed ring round what collides or sticks out of the space; its label says which. */
const TroubleRing = ({
  stroke,
  outline,
  colours,
  id,
}: Pick<GearProps, "stroke" | "outline" | "colours"> & { readonly id: string }) => {
  const [low, high] = reachAlong(outline);
  const wire = stroke * 0.006;
  const radius = reachAcross(outline) + 2 * wire;
  const z = outline.coneDistance === null ? (low + high) / 2 : outline.at;
  const part = wirePart(wire, radius);
  const geometry = useShared(`dashed ring ${part}`, () => toGeometry(dashedRing(1, part)));
  const material = useThrough(colours.warning);
  return (
    <SceneMesh
      name={`trouble gear ${id}`}
      geometry={geometry}
      material={material}
      order={5}
      frame={ringPlace(radius, z)}
    />
  );
};

/** Not colour alone: a ring stands round what is lit. */
const LightRing = ({
  stroke,
  outline,
  colours,
  isSelected,
}: Pick<GearProps, "stroke" | "outline" | "colours"> & { readonly isSelected: boolean }) => {
  const reach = reachAcross(outline);
  const [low, high] = reachAlong(outline);
  const wire = stroke * (isSelected ? 0.0052 : 0.0035);
  const radius = reach + 3 * wire;
  const z = outline.coneDistance === null ? (low + high) / 2 : outline.at;
  const part = wirePart(wire, radius);
  const geometry = useShared(`ring ${part}`, () => toGeometry(wireRing(1, part)));
  const material = useFlat(colours.focus, isSelected ? 1 : 0.75);
  return <SceneMesh geometry={geometry} material={material} frame={ringPlace(radius, z)} />;
};
