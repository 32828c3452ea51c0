/** Everything inside the 3D picture: the eye, the light, the drive, a ghost of what would be added, the arc of the lean handle. */
import { useFrame, useThree } from "@react-three/fiber";
import { useEffect, useMemo } from "react";
import { Matrix4, type PerspectiveCamera } from "three";
import { clockStore } from "../store/clock";
import { useView, viewStore } from "../store/view";
import { benchLayout } from "./bench-layout";
import { currentOrbit, currentRoom, glideOn, onEye } from "./camera";
import { DriveScene } from "./drive-scene";
import { LeanArc } from "./lean-arc";
import { eyeFrame, eyePoint } from "./orbit";
import { placeOverlay } from "./overlay";
import { useShownDrive } from "./shown-drive";
import { useColours } from "./theme-colours";
import { onTick } from "./ticking";
import { ghostTurningOf } from "./turning";

export const Scene = () => {
  const { layout, turning } = useShownDrive();
  const colours = useColours();
  return (
    <>
      <Eye />
      <hemisphereLight args={["#ffffff", colours.isDark ? "#3a4550" : "#9aa7b0", colours.isDark ? 1.7 : 2.2]} />
      <DriveScene layout={layout} turning={turning} colours={colours} />
      <LeanArc layout={layout} colours={colours} />
      <Ghost />
    </>
  );
};

const basis = new Matrix4();

/** Puts the camera where the bench's eye is, and the lamp over its left shoulder; asks for a frame whenever something moves. */
const Eye = () => {
  const invalidate = useThree((state) => state.invalidate);
  const camera = useThree((state) => state.camera) as PerspectiveCamera;
  const scene = useThree((state) => state.scene);
  useEffect(() => {
    const off = [
      onTick(() => invalidate()),
      onEye(() => invalidate()),
      clockStore.subscribe(() => invalidate()),
      viewStore.subscribe(() => invalidate()),
    ];
    return () => {
      for (const stop of off) stop();
    };
  }, [invalidate]);
  useFrame(() => {
    if (glideOn(performance.now())) invalidate();
    const orbit = currentOrbit();
    const { back, right, up } = eyeFrame(orbit);
    camera.position.set(...eyePoint(orbit));
    basis.set(right[0], up[0], back[0], 0, right[1], up[1], back[1], 0, right[2], up[2], back[2], 0, 0, 0, 0, 1);
    camera.quaternion.setFromRotationMatrix(basis);
    const { radius, centre } = currentRoom();
    const away = Math.hypot(orbit.target[0] - centre[0], orbit.target[1] - centre[1], orbit.target[2] - centre[2]);
    camera.near = Math.max(orbit.distance / 500, orbit.distance - away - 2.5 * radius);
    camera.far = orbit.distance + away + 4 * radius;
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
    const lamp = scene.getObjectByName("lamp");
    lamp?.position.set(
      back[0] * 1.25 - right[0] * 0.6 + up[0] * 0.85,
      back[1] * 1.25 - right[1] * 0.6 + up[1] * 0.85,
      back[2] * 1.25 - right[2] * 0.6 + up[2] * 0.85,
    );
  }, -2);
  useFrame(placeOverlay);
  return <directionalLight name="lamp" intensity={1.7} />;
};

const Ghost = () => {
  const ghost = useView((state) => state.ghost);
  const colours = useColours();
  const made = useMemo(
    () => ghost && { layout: benchLayout(ghost.solved), turning: ghostTurningOf(ghost.solved), shafts: ghost.shafts },
    [ghost],
  );
  if (!made) return null;
  return <DriveScene layout={made.layout} turning={made.turning} colours={colours} ghosts={made.shafts} />;
};
