/** The real scene without a graphics card: its objects, how they turn, and what it costs React. */
import { act, render } from "@testing-library/react";
import { Profiler } from "react";
import { type Group, type Mesh, type Object3D, Quaternion, Vector3 } from "three";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { Picture } from "../../src/bench/picture";
import { Scene } from "../../src/bench/scene";
import { InPicture } from "../../src/bench/scene-objects";
import { sharedCounts } from "../../src/bench/shared";
import type { Drive } from "../../src/engine/drive/types";
import { solve } from "../../src/engine/solve";
import { clockStore, now, reverse, setPlaying } from "../../src/store/clock";
import { documentStore, openDrive, perform } from "../../src/store/document";
import { setView } from "../../src/store/view";
import { differential, mesh, planetary, root, toothed } from "../support/random-drives";

let picture: Picture;
let drawn = 0;
let renders = 0;

beforeEach(() => {
  drawn = 0;
  renders = 0;
  picture = new Picture({ setSize: () => {}, setPixelRatio: () => {}, render: () => drawn++, dispose: () => {} });
  setPlaying(false);
  setView({ ghost: null, selection: null, hover: null, drawing: "full" });
});
afterEach(() => picture.dispose());

function show(drive: Drive): void {
  act(() => openDrive(drive));
  render(
    <InPicture picture={picture}>
      <Profiler id="scene" onRender={() => renders++}>
        <Scene />
      </Profiler>
    </InPicture>,
  );
  draw();
}

function draw(): void {
  picture.draw();
  picture.scene.updateMatrixWorld(true);
}

const named = (name: string): Object3D => {
  const object = picture.scene.getObjectByName(name);
  if (!object) throw new Error(`${name} is not in the scene`);
  return object;
};
const attitude = (name: string): Quaternion => named(name).getWorldQuaternion(new Quaternion());

/** Radians a second, world axes, by which an object turned between two times in minutes. */
function turningOf(name: string, from: number, to: number): Vector3 {
  now.time = from;
  draw();
  const before = attitude(name);
  now.time = to;
  draw();
  const step = attitude(name).multiply(before.invert());
  if (step.w < 0) step.set(-step.x, -step.y, -step.z, -step.w);
  const axis = new Vector3(step.x, step.y, step.z);
  const size = 2 * Math.atan2(axis.length(), step.w);
  return axis.normalize().multiplyScalar(size / ((to - from) * 60));
}

const spurPair = (): Drive => ({
  title: "",
  notes: "",
  shafts: [root("A"), { id: "B", name: "B" }],
  gears: [toothed("a", "A", "spur", 20, 2), toothed("b", "B", "spur", 50, 2)],
  meshes: [mesh("m", "a", "b")],
  ports: [{ shaft: "A", role: "input", speed: 60 }],
});

describe("the scene", () => {
  it.each([
    ["a spur pair", spurPair()],
    ["a planetary set", planetary(24, 18, 60, 3)],
    ["a bevel differential", differential(16, 12)],
  ])("turns every gear object at the engine's angular velocity: %s", (_, drive) => {
    show(drive);
    const solved = solve(drive);
    for (const [i, gear] of drive.gears.entries()) {
      const omega = solved.motion.angularVelocity[solved.index.shaftOfGear[i] ?? -1];
      if (!omega) throw new Error("not determined");
      // From time zero, where the engine gives its world axes; so short that a carrier has hardly moved.
      const seen = turningOf(`gear ${gear.id}`, 0, 1e-7);
      expect(seen.distanceTo(new Vector3(...omega))).toBeLessThan(1e-3 * (1 + new Vector3(...omega).length()));
    }
  });

  it("stands teeth in gaps: a tooth of one gear at the contact, a gap of the other", () => {
    show(spurPair());
    now.time = 0.00321;
    draw();
    const solved = documentStore.getState().solved;
    const towards = solved.placement.meshes[0]?.towards;
    if (!towards) throw new Error("not placed");
    const place = (name: string, teeth: number, direction: readonly [number, number, number]): number => {
      const local = new Vector3(...direction).applyQuaternion(attitude(name).invert());
      return (Math.atan2(local.y, local.x) / (2 * Math.PI)) * teeth;
    };
    // Parts of a pitch from a tooth's middle; outside pairs turn opposite ways, so the two add up to half a pitch.
    const sum = place("gear a", 20, towards[0]) + place("gear b", 50, towards[1]);
    expect(Math.abs(sum - Math.round(sum))).toBeCloseTo(0.5, 9);
  });

  it("renders no React while the drive turns", () => {
    show(planetary(24, 18, 60, 3));
    const before = renders;
    const drawnBefore = drawn;
    for (let k = 0; k < 120; k++) {
      now.time += 1e-4;
      picture.draw();
    }
    expect(drawn - drawnBefore).toBe(120);
    expect(renders - before).toBe(0);
  });

  it("builds equal gears once, a changed one alone, and gives back what nobody uses", async () => {
    const drive = planetary(24, 18, 60, 3);
    show(drive);
    const planets = ["p1", "p2", "p3"].map((id) => (named(`gear ${id}`).children[0] as Mesh).geometry);
    expect(new Set(planets).size).toBe(1);
    await act(async () => {});
    const held = sharedCounts.held();
    const sorts = ["gear", "lines", "pitch", "axis", "arrow", "contact"];
    const before = sorts.map((sort) => sharedCounts.built(sort));
    for (let k = 1; k <= 20; k++) {
      await act(async () => {
        perform(
          (now) => ({
            ...now,
            gears: now.gears.map((gear) => (gear.id === "s" ? { ...gear, face: 10 + k / 10 } : gear)),
          }),
          "face",
        );
      });
    }
    // The sun's body, lines and pitch surface, and the axes of the shafts on its line (at most three); no planet, no ring, no arrow.
    const [gear, lines, pitch, axis, arrow] = sorts.map((sort, i) => sharedCounts.built(sort) - (before[i] ?? 0));
    expect([gear, lines, pitch, arrow]).toEqual([20, 20, 20, 0]);
    expect(axis).toBeLessThanOrEqual(60);
    expect(sharedCounts.held()).toBeLessThanOrEqual(held + 2);
    expect((named("gear p1").children[0] as Mesh).geometry).toBe(planets[0]);
  });

  it("lets the arrow go the way the shaft is shown to turn, and hides it on what stands still", () => {
    show(planetary(24, 18, 60, 3));
    expect(named("arrow S").userData.way).toBe(1);
    expect(named("arrow S").rotation.x).toBe(0);
    expect(picture.scene.getObjectByName("arrow R")).toBeUndefined();
    act(() => reverse());
    expect(named("arrow S").userData.way).toBe(-1);
    expect(named("arrow S").rotation.x).toBeCloseTo(Math.PI, 12);
    act(() => {
      reverse();
      setPlaying(false);
    });
    expect(clockStore.getState().direction).toBe(1);
  });

  it("draws a ghost of the shafts that would be added, turning at their own speeds", () => {
    show(spurPair());
    const more: Drive = {
      ...spurPair(),
      shafts: [...spurPair().shafts, { id: "C", name: "C" }],
      gears: [...spurPair().gears, toothed("c", "C", "spur", 25, 2)],
      meshes: [...spurPair().meshes, mesh("m2", "b", "c")],
    };
    act(() => setView({ ghost: { solved: solve(more), shafts: ["C"] } }));
    draw();
    const ghost = named("ghost") as Group;
    expect(ghost.getObjectByName("gear c")).toBeDefined();
    expect(ghost.getObjectByName("gear a")).toBeUndefined();
    const speed = solve(more).motion.speed[2] ?? 0;
    expect(turningOf("gear c", 0, 1e-7).x).toBeCloseTo((speed * 2 * Math.PI) / 60, 3);
    act(() => setView({ ghost: null }));
    expect(picture.scene.getObjectByName("ghost")).toBeUndefined();
  });

  it("rings what is selected or pointed at in any panel: the gear, all gears of a shaft, both gears of a mesh", () => {
    show(spurPair());
    const count = (id: string): number => named(`gear ${id}`).children.length;
    const plain = count("a");
    act(() => setView({ selection: { kind: "gear", id: "a" } }));
    expect(count("a")).toBe(plain + 1);
    act(() => setView({ selection: { kind: "mesh", id: "m" } }));
    expect([count("a"), count("b")]).toEqual([plain + 1, plain + 1]);
    act(() => setView({ selection: null, hover: { kind: "shaft", id: "B" } }));
    expect([count("a"), count("b")]).toEqual([plain, plain + 1]);
  });
});
