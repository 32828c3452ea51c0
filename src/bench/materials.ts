/** Materials by what they are for, shared by colour. */
import { DoubleSide, LineBasicMaterial, MeshBasicMaterial, MeshLambertMaterial } from "three";
import { batchable } from "./batches";
import type { Light } from "./pointed";
import { useShared } from "./shared";
import { type BenchColours, mix } from "./theme-colours";

/** How much a ghost lets through. */
const GHOST = 0.42;

/** Solid bodies: the shaft's hue, paler so that lines and marks stand out on it. */
export function useBody(hue: string, colours: BenchColours, light: Light, isGhost = false): MeshLambertMaterial {
  const paler = mix(hue, colours.isDark ? "#39464f" : "#ffffff", colours.isDark ? 0.3 : 0.42);
  // Brighter in its own hue: the hue is the shaft's and stays, that it is selected is told by a ring.
  const glow = light === "selected" ? 0.16 : light === "pointed" ? 0.1 : 0;
  return useShared(`body ${paler} ${glow} ${isGhost}`, () => {
    const material = new MeshLambertMaterial({
      color: paler,
      emissive: paler,
      emissiveIntensity: glow,
      vertexColors: true,
      // Lines that lie on a face are drawn before it.
      polygonOffset: true,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
      ...(isGhost ? { transparent: true, opacity: GHOST, depthWrite: false } : {}),
    });
    return isGhost || glow > 0 ? material : batchable("body", material);
  });
}

/** Rods, arms, blocks: one plain colour. */
export function usePlain(colour: string, isGhost = false, light: Light = null): MeshLambertMaterial {
  const glow = light === "selected" ? 0.25 : light === "pointed" ? 0.15 : 0;
  return useShared(`plain ${colour} ${isGhost} ${glow}`, () => {
    const material = new MeshLambertMaterial({
      color: colour,
      emissive: colour,
      emissiveIntensity: glow,
      ...(isGhost ? { transparent: true, opacity: GHOST, depthWrite: false } : {}),
    });
    return isGhost || glow > 0 ? material : batchable("plain", material);
  });
}

/** Colours that no light changes: arrows, contact lines, rings round what is lit. */
export const useFlat = (colour: string, opacity = 1): MeshBasicMaterial =>
  useShared(`flat ${colour} ${opacity}`, () =>
    batchable(
      `flat ${opacity}`,
      new MeshBasicMaterial({ color: colour, transparent: opacity < 1, opacity, toneMapped: false }),
    ),
  );

/** Seen through everything: contact lines and apexes, which lie within the bodies. */
export const useThrough = (colour: string, opacity = 1): MeshBasicMaterial =>
  useShared(`through ${colour} ${opacity}`, () =>
    batchable(
      `through ${opacity}`,
      new MeshBasicMaterial({ color: colour, transparent: true, opacity, depthTest: false, toneMapped: false }),
    ),
  );

export const useSurface = (hue: string, opacity: number): MeshBasicMaterial =>
  useShared(`surface ${hue} ${opacity}`, () =>
    batchable(
      `surface ${opacity}`,
      new MeshBasicMaterial({
        color: hue,
        transparent: true,
        opacity,
        side: DoubleSide,
        // One colour all over: what lies behind need not be drawn first, and once is enough.
        forceSinglePass: true,
        depthWrite: false,
        toneMapped: false,
      }),
    ),
  );

export const useLine = (colour: string, opacity = 1): LineBasicMaterial =>
  useShared(`line ${colour} ${opacity}`, () =>
    batchable(
      `line ${opacity}`,
      new LineBasicMaterial({ color: colour, transparent: opacity < 1, opacity, toneMapped: false }),
    ),
  );

/** Lines likewise. */
export const useThroughLine = (colour: string): LineBasicMaterial =>
  useShared(
    `through-line ${colour}`,
    () => new LineBasicMaterial({ color: colour, transparent: true, depthTest: false, toneMapped: false }),
  );

/** Cut material, seen through what stands before it, from both sides. */
export const useSection = (colour: string): MeshBasicMaterial =>
  useShared(
    `section ${colour}`,
    () =>
      new MeshBasicMaterial({
        color: colour,
        transparent: true,
        side: DoubleSide,
        forceSinglePass: true,
        depthTest: false,
        toneMapped: false,
      }),
  );
