/** Everything inside the 3D picture: the eye, the light, the drive, a ghost of what would be added, the arc of the lean handle. */
import { lazy, memo, Suspense, useEffect, useMemo, useRef } from "react";
import { type DirectionalLight, Matrix4 } from "three";
import { add, distance, scale } from "../engine/vector";
import { clockStore } from "../store/clock";
import { closeStore, useClose } from "../store/close-look";
import { useDemo } from "../store/demo";
import { useView, viewStore } from "../store/view";
import { benchLayout } from "./bench-layout";
import { currentOrbit, currentRoom, frontReach, glideOn, onEye } from "./camera";
import { DriveScene } from "./drive-scene";
import { eyeFrame, eyePoint } from "./orbit";
import { placeOverlay } from "./overlay";
import { Lamp, SkyLight, useFrame, usePicture } from "./scene-objects";
import { useShownDrive } from "./shown-drive";
import { SpaceFrame } from "./space-frame";
import { useColours } from "./theme-colours";
import { onTick } from "./ticking";
import { ghostTurningOf } from "./turning";

/** Comes with the first mesh that is looked at. */
const CloseScene = lazy(async () => ({ default: (await import("./close-scene")).CloseScene }));

/** Comes with the first part that is selected, or the first bevel pair that would be added. */
const LeanArc = lazy(async () => ({ default: (await import("./lean-arc")).LeanArc }));

export const Scene = () => {
  const close = useClose(({ mesh }) => mesh);
  /** Teeth are drawn, and a mesh is selected: where its flanks touch is told without a close look too. */
  const selected = useView(({ selection, showTeeth, drawing, posed }) =>
    selection?.kind === "mesh" && showTeeth && drawing === "full" && !posed ? selection.id : null,
  );
  const hasSelection = useView(({ selection, posed }) => selection !== null && !posed);
  const isDemo = useDemo(({ shown }) => shown !== null);
  const swept = useDemo(({ shown, kind, mesh }) => (shown && kind === "sweep" ? mesh : null));
  const part = useMemo(() => (swept === null ? undefined : ({ kind: "mesh", id: swept } as const)), [swept]);
  const touched = isDemo ? null : (close ?? selected);
  const { layout, turning } = useShownDrive();
  const colours = useColours();
  return (
    <>
      <Eye />
      <SkyLight sky="#ffffff" ground={colours.isDark ? "#3a4550" : "#9aa7b0"} strength={colours.isDark ? 1.7 : 2.2} />
      <DriveScene layout={layout} turning={turning} colours={colours} />
      <SpaceFrame layout={layout} colours={colours} />
      {(hasSelection || part) && (
        <Suspense>
          <LeanArc layout={layout} colours={colours} part={part} />
        </Suspense>
      )}
      <Ghost />
      {touched !== null && (
        <Suspense>
          <CloseScene {...{ layout, turning, colours }} id={touched} isClose={close !== null} />
        </Suspense>
      )}
    </>
  );
};

const basis = new Matrix4();

/** Puts the camera where the bench's eye is, and the lamp over its left shoulder; draws whenever something moved. */
const Eye = memo(function Eye() {
  const picture = usePicture();
  const { camera } = picture;
  const lamp = useRef<DirectionalLight | null>(null);
  useEffect(() => {
    const off = [
      // Within the frame that moved the drive, so that the picture is not one frame late.
      onTick(picture.draw),
      onEye(picture.redraw),
      clockStore.subscribe(picture.redraw),
      viewStore.subscribe(picture.redraw),
      closeStore.subscribe(picture.redraw),
    ];
    return () => {
      for (const stop of off) stop();
    };
  }, [picture]);
  useFrame(() => {
    if (glideOn(performance.now())) picture.redraw();
    const orbit = currentOrbit();
    const { back, right, up } = eyeFrame(orbit);
    camera.position.set(...eyePoint(orbit));
    basis.set(right[0], up[0], back[0], 0, right[1], up[1], back[1], 0, right[2], up[2], back[2], 0, 0, 0, 0, 1);
    camera.quaternion.setFromRotationMatrix(basis);
    const { radius, centre } = currentRoom();
    const away = distance(orbit.target, centre);
    const nearest = orbit.distance - Math.min(away + 2.5 * radius, frontReach(back));
    camera.near = Math.max(orbit.distance / 500, nearest);
    camera.far = orbit.distance + away + 4 * radius;
    camera.updateProjectionMatrix();
    const light = add(add(scale(back, 1.25), scale(right, -0.6)), scale(up, 0.85));
    lamp.current?.position.set(...light);
  }, -2);
  useFrame(placeOverlay, 0);
  const hold = (light: DirectionalLight | null): void => {
    lamp.current = light;
  };
  return <Lamp strength={1.7} onObject={hold} />;
});

const Ghost = memo(function Ghost() {
  const ghost = useView((state) => state.ghost);
  const colours = useColours();
  const made = useMemo(() => {
    if (!ghost) return null;
    const part = ghost.leaning === undefined ? undefined : ({ kind: "mesh", id: ghost.leaning } as const);
    return { layout: benchLayout(ghost.solved), turning: ghostTurningOf(ghost.solved), part, ...ghost };
  }, [ghost]);
  if (!made) return null;
  const { layout, turning, shafts, gears, part } = made;
  return (
    <>
      <DriveScene {...{ layout, turning, colours }} ghosts={shafts} ghostGears={gears} hasCones={part !== undefined} />
      {part && (
        <Suspense>
          <LeanArc {...{ layout, colours, part }} />
        </Suspense>
      )}
    </>
  );
});
