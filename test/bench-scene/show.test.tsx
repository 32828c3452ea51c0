/** The choice between teeth, pitch surfaces and both: what it says, and what the scene then holds. */
import { act, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { Mesh, type Object3D } from "three";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { Picture } from "../../src/bench/picture";
import { Scene } from "../../src/bench/scene";
import { InPicture } from "../../src/bench/scene-objects";
import { Transport } from "../../src/bench/transport";
import { setPlaying } from "../../src/store/clock";
import { openDrive } from "../../src/store/document";
import { setView } from "../../src/store/view";
import { mesh, root, toothed } from "../support/random-drives";

let picture: Picture;
beforeEach(() => {
  picture = new Picture({ setSize: () => {}, setPixelRatio: () => {}, render: () => {}, dispose: () => {} });
  setPlaying(false);
  setView({ selection: null, drawing: "full", showTeeth: true, showSurfaces: true });
});
afterEach(() => picture.dispose());

const see = (): void => {
  act(() =>
    openDrive({
      title: "",
      notes: "",
      shafts: [root("A"), { id: "B", name: "B" }],
      gears: [toothed("a", "A", "spur", 20, 2), toothed("b", "B", "spur", 50, 2)],
      meshes: [mesh("m", "a", "b")],
      ports: [{ shaft: "A", role: "input", speed: 60 }],
    }),
  );
  render(
    <>
      <Transport />
      <InPicture picture={picture}>
        <Scene />
      </InPicture>
    </>,
  );
};

/** Solid and translucent meshes of a gear. */
function counted(): { readonly solid: number; readonly translucent: number } {
  let [solid, translucent] = [0, 0];
  picture.scene.getObjectByName("gear a")?.traverse((object: Object3D) => {
    if (!(object instanceof Mesh)) return;
    if (object.material.transparent) translucent++;
    else if (object.renderOrder === 0) solid++;
  });
  return { solid, translucent };
}

describe("the choice of what is shown", () => {
  it("draws teeth, pitch surfaces, or both", async () => {
    see();
    const choice = screen.getByRole("combobox", { name: "Show" });
    expect(choice).toHaveValue("both");
    expect(counted()).toEqual({ solid: 1, translucent: 1 });
    await userEvent.selectOptions(choice, "teeth");
    expect(counted()).toEqual({ solid: 1, translucent: 0 });
    expect(picture.scene.getObjectByName("contact m")).toBeUndefined();
    await userEvent.selectOptions(choice, "surfaces");
    expect(counted()).toEqual({ solid: 0, translucent: 1 });
    expect(picture.scene.getObjectByName("contact m")).toBeDefined();
  });
});
