/** A close look at one mesh: its controls, its pace, the way back, and what it draws. */
import { act, render, screen, waitFor } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { type Mesh, type Object3D, Vector3 } from "three";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { currentOrbit, glideOn, setOrbit } from "../../src/bench/camera";
import { ClosePanel } from "../../src/bench/close-panel";
import { Picture } from "../../src/bench/picture";
import { Scene } from "../../src/bench/scene";
import { InPicture } from "../../src/bench/scene-objects";
import { Views } from "../../src/bench/views";
import type { Drive } from "../../src/engine/drive/types";
import { pitchesAtMesh } from "../../src/engine/motion/shown-speed";
import { advance, clockStore, now, setPlaying, setRate } from "../../src/store/clock";
import { closeStore, lookAway, lookClosely, meshToLookAt, useClose } from "../../src/store/close-look";
import { documentStore, openDrive } from "../../src/store/document";
import { setView } from "../../src/store/view";
import { mesh, planetary, root, toothed } from "../support/random-drives";

const pair = (kind: "spur" | "bevel"): Drive => ({
  title: "",
  notes: "",
  shafts: [root("A"), { id: "B", name: "B" }],
  gears: [
    toothed("a", "A", kind, 20, 2, kind === "bevel" ? { face: 8, apex: "-" } : {}),
    toothed("b", "B", kind, 40, 2, kind === "bevel" ? { face: 8, apex: "-" } : {}),
  ],
  meshes: [mesh("m", "a", "b", kind === "bevel" ? { shaftAngle: 90 } : {})],
  ports: [{ shaft: "A", role: "input", speed: 60 }],
});

let picture: Picture;
beforeEach(() => {
  picture = new Picture({ setSize: () => {}, setPixelRatio: () => {}, render: () => {}, dispose: () => {} });
  setPlaying(false);
  setRate(0.2);
  setView({ selection: null, drawing: "full", showTeeth: true, showSurfaces: true });
});
afterEach(() => {
  act(lookAway);
  picture.dispose();
});

const Panel = () => (useClose((state) => state.mesh) === null ? null : <ClosePanel />);

function show(drive: Drive): void {
  act(() => openDrive(drive));
  render(
    <>
      <Views />
      <Panel />
      <InPicture picture={picture}>
        <Scene />
      </InPicture>
    </>,
  );
}

const found = (name: string): Object3D | undefined => picture.scene.getObjectByName(name);
const bars = (): Object3D[] =>
  (found("touch m")?.children ?? []).filter((child) => child.type === "Group" && child.visible);

describe("a close look", () => {
  it("slows a tooth to four seconds and gives the pace back", () => {
    show(pair("spur"));
    const before = clockStore.getState().slowdown;
    act(() => lookClosely("m"));
    const { slowdown } = clockStore.getState();
    // Pitches a minute shown: 15, one in four seconds.
    expect(slowdown * pitchesAtMesh(documentStore.getState().solved, 0)).toBeCloseTo(15, 9);
    setPlaying(true);
    now.time = 0;
    advance(0.05);
    expect(now.time * pitchesAtMesh(documentStore.getState().solved, 0)).toBeCloseTo(0.05 / 4, 9);
    setPlaying(false);
    act(lookAway);
    expect(clockStore.getState().slowdown).toBeCloseTo(before, 12);
    expect(clockStore.getState().rate).toBe(0.2);
  });

  it("is opened by its button and left by another, and the eye comes back", async () => {
    show(pair("bevel"));
    const orbit = { ...currentOrbit(), azimuth: 0.3 };
    act(() => setOrbit(orbit));
    await userEvent.click(screen.getByRole("button", { name: "Close look" }));
    expect(screen.getByRole("group", { name: /Close look at a .* and b/ })).toBeVisible();
    await waitFor(() => expect(found("touch m")).toBeDefined());
    glideOn(performance.now() + 10_000);
    expect(currentOrbit().distance).toBeLessThan(orbit.distance);
    await userEvent.click(screen.getByRole("button", { name: "Back" }));
    expect(closeStore.getState().mesh).toBeNull();
    glideOn(performance.now() + 10_000);
    expect(currentOrbit().azimuth).toBeCloseTo(0.3, 9);
    expect(currentOrbit().distance).toBeCloseTo(orbit.distance, 9);
  });

  it("draws the lines of contact where they move to, towards the apex on cones", async () => {
    show(pair("bevel"));
    act(() => lookClosely("m"));
    await waitFor(() => expect(found("touch m")).toBeDefined());
    const apex = new Vector3(...(documentStore.getState().solved.placement.gears[0]?.apexPoint ?? [0, 0, 0]));
    let places = "";
    for (const time of [0, 0.0002, 0.0004]) {
      now.time = time;
      picture.draw();
      picture.scene.updateMatrixWorld(true);
      expect(bars().length).toBeGreaterThanOrEqual(2);
      const first = bars()[0] as Object3D;
      const from = new Vector3().applyMatrix4(first.matrixWorld);
      const to = new Vector3(0, 0, 1).applyMatrix4(first.matrixWorld);
      expect(to.clone().sub(from).cross(apex.clone().sub(from)).length()).toBeLessThan(1e-6);
      const place = from.toArray().join();
      expect(place).not.toBe(places);
      places = place;
    }
  });

  it("slides a section from heel to toe, smaller towards the apex", async () => {
    show(pair("bevel"));
    act(() => lookClosely("m"));
    await userEvent.click(screen.getByRole("button", { name: "Section" }));
    await waitFor(() => expect(found("section a")).toBeDefined());
    const reach = (): number => {
      const body = found("section a")?.children[0] as Mesh;
      body.geometry.computeBoundingSphere();
      return body.geometry.boundingSphere?.radius ?? 0;
    };
    const heel = reach();
    const slider = screen.getByRole("slider", { name: "Place of the section" });
    expect(slider).toHaveAttribute("aria-valuetext", "at the heel");
    act(() => closeStore.setState({ section: 1 }));
    expect(slider).toHaveAttribute("aria-valuetext", "at the toe");
    const cone = documentStore.getState().solved.placement.gears[0]?.coneDistance ?? 1;
    expect(reach() / heel).toBeCloseTo((cone - 8) / cone, 2);
  });

  it("grows teeth out of smooth wheels without touching the drive", async () => {
    show(pair("spur"));
    const { drive } = documentStore.getState();
    act(() => lookClosely("m"));
    await waitFor(() => expect(found("touch m")).toBeDefined());
    const reach = (): number => {
      const body = found("gear a")?.children[0] as Mesh;
      const at = body.geometry.getAttribute("position");
      let most = 0;
      for (let i = 0; i < at.count; i++) most = Math.max(most, Math.hypot(at.getX(i), at.getY(i)));
      return most;
    };
    expect(reach()).toBeCloseTo(22, 3);
    act(() => closeStore.setState({ growth: 0.5 }));
    expect(reach()).toBeCloseTo(21, 3);
    act(() => closeStore.setState({ growth: 0 }));
    expect(reach()).toBeLessThan(20.1);
    expect(found("touch m")).toBeUndefined();
    expect(documentStore.getState().drive).toBe(drive);
  });

  it("draws the line of action across the contact line, and tells the two apart", async () => {
    show(pair("bevel"));
    act(() => lookClosely("m"));
    expect(found("action m 1")).toBeUndefined();
    await userEvent.click(screen.getByRole("button", { name: "Line of action" }));
    expect(screen.getByText(/at 20° to the common tangent/)).toBeVisible();
    await waitFor(() => expect(found("action m 1")).toBeDefined());
    const bar = found("action m 1") as Object3D;
    const [heel, toe] = documentStore.getState().solved.placement.meshes[0]?.contact ?? [];
    if (!heel || !toe) throw new Error("no contact");
    const action = new Vector3().setFromMatrixColumn(bar.matrix, 2);
    const contact = new Vector3(...heel).sub(new Vector3(...toe));
    // Square to the contact line; seven modules long; through the middle of the face.
    expect(action.dot(contact) / action.length() / contact.length()).toBeCloseTo(0, 6);
    expect(action.length()).toBeCloseTo(14, 6);
    const middle = new Vector3().setFromMatrixPosition(bar.matrix).addScaledVector(action, 0.5);
    expect(middle.distanceTo(new Vector3(...toe).addScaledVector(contact, 0.5))).toBeCloseTo(0, 6);
    act(() => closeStore.setState({ growth: 0 }));
    expect(screen.queryByRole("button", { name: "Line of action" })).toBeNull();
    expect(screen.queryByText(/common tangent/)).toBeNull();
    act(lookAway);
    act(() => lookClosely("m"));
    expect(closeStore.getState().action).toBe(false);
  });

  it("finds the mesh of what is selected, and none where nothing has teeth", () => {
    act(() => openDrive(planetary(24, 18, 60, 3)));
    const { solved } = documentStore.getState();
    const last = solved.drive.meshes.at(-1);
    expect(meshToLookAt(solved, { kind: "mesh", id: last?.id ?? "" })).toBe(last?.id);
    expect(meshToLookAt(solved, { kind: "shaft", id: "nobody" })).toBeNull();
    expect(meshToLookAt(solved, null)).toBe(solved.drive.meshes[0]?.id);
  });

  it("ends when another drive is opened", () => {
    show(pair("spur"));
    act(() => lookClosely("m"));
    act(() => openDrive(pair("bevel")));
    expect(closeStore.getState().mesh).toBeNull();
  });
});
