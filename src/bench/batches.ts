/**
 * Many bodies in few calls to the graphics card. Objects whose materials differ by colour alone are drawn by one batch for all of them: they
 * stay in the scene as what has a place, a form and a colour, but on no layer, so that the renderer passes them by. What is drawn one by
 * one: materials without a sort (ghosts, what is lit), and what is very large.
 */
import {
  BatchedMesh,
  type BufferGeometry,
  type Color,
  type LineSegments,
  type Material,
  type Mesh,
  type Scene,
} from "three";

/** Materials of one sort are equal but for their colour. */
export const batchable = <M extends Material>(sort: string, material: M): M => {
  material.userData.sort = sort;
  return material;
};

type Body = Mesh | LineSegments;

/** Copying this many corners from one buffer to another would cost more than the call it saves. */
const MOST_CORNERS = 60_000;
const FIRST_BODIES = 64;
const FIRST_CORNERS = 8192;
/** Room that a form leaves for another in its place, as a factor: a gear that is dragged is a little larger each time. */
const SPARE = 1.25;

/** A part of the batch's buffers, and the form that lies there. */
interface Slot {
  readonly id: number;
  readonly corners: number;
  readonly indices: number;
  users: number;
}

/** A body's place in the batch, and what is drawn there; null before it has a colour. */
interface Member {
  readonly id: number;
  geometry: BufferGeometry;
  colour: number | null;
}

const cornersOf = (geometry: BufferGeometry): number => geometry.getAttribute("position")?.count ?? 0;
const indicesOf = (geometry: BufferGeometry): number => geometry.index?.count ?? 0;

class Lines extends BatchedMesh {
  constructor(bodies: number, corners: number, indices: number, material: Material) {
    super(bodies, corners, indices, material);
    // The renderer asks these how corners are joined.
    Object.assign(this, { isMesh: false, isLine: true, isLineSegments: true });
  }
}

const paint = (material: Material): Color => (material as Material & { color: Color }).color;

class Batch {
  readonly drawn: BatchedMesh;
  private readonly slots = new Map<BufferGeometry, Slot>();
  private free: Slot[] = [];
  private readonly members = new Map<Body, Member>();
  private corners = FIRST_CORNERS;
  private indices = 4 * FIRST_CORNERS;

  constructor(body: Body, material: Material) {
    const own = material.clone();
    own.userData = {};
    paint(own).set(0xffffff);
    const Sort = "isLine" in body ? Lines : BatchedMesh;
    this.drawn = new Sort(FIRST_BODIES, this.corners, this.indices, own);
    this.drawn.name = "batch";
    this.drawn.matrixAutoUpdate = false;
    this.drawn.renderOrder = body.renderOrder;
    // Each body by itself is left out where it isn't in the picture.
    this.drawn.frustumCulled = false;
    // Depth sorts what is solid; of what lets light through, what is further away is drawn first.
    this.drawn.sortObjects = own.transparent && own.depthTest;
  }

  put(body: Body): void {
    const { geometry } = body;
    const colour = paint(body.material as Material);
    const hex = colour.getHex();
    const member = this.members.get(body) ?? this.enter(body);
    if (member.geometry !== geometry) {
      const { id } = this.take(geometry);
      this.drawn.setGeometryIdAt(member.id, id);
      this.leave(member.geometry);
      member.geometry = geometry;
    }
    if (member.colour !== hex) {
      this.drawn.setColorAt(member.id, colour);
      member.colour = hex;
    }
  }

  private enter(body: Body): Member {
    if (this.drawn.instanceCount >= this.drawn.maxInstanceCount)
      this.drawn.setInstanceCount(2 * this.drawn.maxInstanceCount);
    const { geometry } = body;
    const member: Member = { id: this.drawn.addInstance(this.take(geometry).id), geometry, colour: null };
    this.members.set(body, member);
    this.drawn.visible = true;
    return member;
  }

  drop(body: Body): void {
    const member = this.members.get(body);
    if (!member) return;
    this.members.delete(body);
    this.drawn.deleteInstance(member.id);
    this.leave(member.geometry);
    this.drawn.visible = this.members.size > 0;
  }

  /** Takes down where each body stands. */
  place(): void {
    for (const [body, { id }] of this.members) this.drawn.setMatrixAt(id, body.matrixWorld);
  }

  private take(geometry: BufferGeometry): Slot {
    const slot = this.slots.get(geometry) ?? this.lay(geometry);
    this.slots.set(geometry, slot);
    slot.users++;
    return slot;
  }

  private leave(geometry: BufferGeometry): void {
    const slot = this.slots.get(geometry);
    if (!slot || --slot.users > 0) return;
    this.slots.delete(geometry);
    this.free.push(slot);
  }

  /** Where it fits without much waste in the place of a form that is gone; else behind all others. */
  private lay(geometry: BufferGeometry): Slot {
    const [corners, indices] = [cornersOf(geometry), indicesOf(geometry)];
    if (geometry.boundingSphere === null) geometry.computeBoundingSphere();
    const at = this.free.findIndex(
      (slot) =>
        slot.corners >= corners &&
        slot.indices >= indices &&
        slot.corners <= 2 * corners &&
        slot.indices <= 2 * indices + 64,
    );
    const [found] = at < 0 ? [] : this.free.splice(at, 1);
    if (found) {
      this.drawn.setGeometryAt(found.id, geometry);
      return found;
    }
    const room = { corners: Math.ceil(corners * SPARE), indices: Math.ceil(indices * SPARE) };
    this.makeRoom(room.corners, room.indices);
    const id = this.drawn.addGeometry(geometry, room.corners, room.indices);
    return { id, ...room, users: 0 };
  }

  private makeRoom(corners: number, indices: number): void {
    const { drawn } = this;
    const hasRoom = () => corners <= drawn.unusedVertexCount && indices <= drawn.unusedIndexCount;
    if (hasRoom()) return;
    const waste = this.free.reduce((sum, slot) => sum + slot.corners, 0);
    if (waste > (this.corners - drawn.unusedVertexCount) / 2) {
      for (const slot of this.free) drawn.deleteGeometry(slot.id);
      this.free = [];
      drawn.optimize();
    }
    if (hasRoom()) return;
    const [least, leastIndices] = [
      this.corners - drawn.unusedVertexCount + corners,
      this.indices - drawn.unusedIndexCount + indices,
    ];
    while (this.corners < least || this.indices < leastIndices) {
      this.corners *= 2;
      this.indices *= 2;
    }
    drawn.setGeometrySize(this.corners, this.indices);
  }

  dispose(): void {
    this.drawn.dispose();
    (this.drawn.material as Material).dispose();
  }
}

/** All batches of one scene. */
export class Batches {
  private readonly batches = new Map<string, Batch>();
  private readonly homes = new Map<Body, Batch>();

  constructor(private readonly scene: Scene) {}

  /** Draws a body with others of its sort from now on, if it has one; to be called again when its form, colour or order is another. */
  put(body: Body): void {
    const home = this.homeOf(body);
    const before = this.homes.get(body);
    if (before && before !== home) this.drop(body);
    if (!home) return;
    home.put(body);
    this.homes.set(body, home);
    body.layers.disableAll();
  }

  drop(body: Body): void {
    this.homes.get(body)?.drop(body);
    this.homes.delete(body);
    body.layers.set(0);
  }

  private homeOf(body: Body): Batch | null {
    const material = body.material as Material;
    const { sort } = material.userData;
    const corners = cornersOf(body.geometry);
    if (typeof sort !== "string" || corners === 0 || corners > MOST_CORNERS) return null;
    const key = `${sort} ${body.renderOrder}`;
    let batch = this.batches.get(key);
    if (!batch) {
      batch = new Batch(body, material);
      this.batches.set(key, batch);
      this.scene.add(batch.drawn);
    }
    return batch;
  }

  /** To be called when all matrices of the scene are reckoned, before it is drawn. */
  place(): void {
    for (const batch of this.batches.values()) batch.place();
  }

  dispose(): void {
    for (const batch of this.batches.values()) {
      this.scene.remove(batch.drawn);
      batch.dispose();
    }
    this.batches.clear();
    this.homes.clear();
  }
}
