/** Gears and meshes as they stand: what follows from their shafts is worked out when first asked for, and kept. */
import type { Gear, Vec3 } from "../drive/types";
import { pitchDiameter } from "../drive/types";
import type { MeshKind, Misfit, Pair, PairShape } from "../mesh-kinds/contract";
import { GEAR_FORMS } from "../mesh-kinds/gear-forms";
import { outwardAxis } from "../mesh-kinds/intersecting";
import type { PlacedGear, PlacedMesh, PlacedShaft } from "../solved";
import { along, DEGREE } from "../vector";

const FITS: Misfit = { millimetres: 0, degrees: 0, modules: 0, unit: 1 };

export class StandingGear implements PlacedGear {
  readonly pitchDiameter: number;
  readonly pitchAngle: number | null;
  readonly coneDistance: number | null;
  private ownCentre: Vec3 | undefined;

  constructor(
    private readonly gear: Gear,
    private readonly shaft: PlacedShaft,
    /** Radians; null on a bevel gear or cone without a mesh. */
    private readonly angle: number | null,
  ) {
    const cylinder = GEAR_FORMS[gear.kind].pitchAngle;
    this.pitchDiameter = pitchDiameter(gear);
    this.pitchAngle = cylinder ?? (angle === null ? null : angle / DEGREE);
    this.coneDistance = cylinder !== null || angle === null ? null : this.pitchDiameter / 2 / Math.sin(angle);
  }

  get centre(): Vec3 {
    this.ownCentre ??= along(this.shaft.origin, this.shaft.axis, this.gear.at);
    return this.ownCentre;
  }

  get outward(): Vec3 {
    return GEAR_FORMS[this.gear.kind].pitchAngle === null ? outwardAxis(this.shaft, this.gear) : this.shaft.axis;
  }

  get apexPoint(): Vec3 | null {
    if (this.coneDistance === null || this.angle === null) return null;
    return along(this.centre, this.outward, -this.coneDistance * Math.cos(this.angle));
  }
}

export class StandingMesh implements PlacedMesh {
  /** Set to false by the checks that leave its equation out. */
  holds = true;
  readonly misfit: Misfit;
  readonly width: number;
  private line: ReturnType<MeshKind["contact"]> | undefined;

  constructor(
    private readonly pair: Pair,
    readonly kind: MeshKind,
    private readonly shafts: readonly [PlacedShaft, PlacedShaft],
    private readonly gears: readonly [PlacedGear, PlacedGear],
    readonly closesLoop: boolean,
  ) {
    this.misfit = closesLoop ? kind.misfit(pair, shafts, gears) : FITS;
    // A mesh that places its mate puts the two faces level.
    this.width = closesLoop ? kind.width(pair, shafts, gears) : Math.min(pair.gears[0].face, pair.gears[1].face);
  }

  get shape(): PairShape {
    return this.pair.shape;
  }

  get contact(): readonly [Vec3, Vec3] {
    return this.touching().line;
  }

  get towards(): readonly [Vec3, Vec3] {
    return this.touching().towards;
  }

  private touching(): ReturnType<MeshKind["contact"]> {
    this.line ??= this.kind.contact(this.pair, this.shafts, this.gears);
    return this.line;
  }
}
