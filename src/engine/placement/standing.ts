/** Gears and meshes as they stand: what follows from their shafts is worked out when first asked for, and kept. */
import type { Gear, Vec3 } from "../drive/types";
import { pitchDiameter } from "../drive/types";
import type { MeshKind, Misfit, Pair, PairShape } from "../mesh-kinds/contract";
import { GEAR_FORMS } from "../mesh-kinds/gear-forms";
import { outwardAxis } from "../mesh-kinds/intersecting";
import type { PlacedGear, PlacedMesh, PlacedShaft } from "../solved";
import { FITS_MODULE, MISFIT_DEGREES, MISFIT_MODULE } from "../tolerances";
import { along, DEGREE } from "../vector";

const FITS: Misfit = { millimetres: 0, degrees: 0, modules: 0, unit: 1 };

export class StandingGear implements PlacedGear {
  readonly pitchAngle: number | null;
  private readonly isCone: boolean;
  private ownCentre: Vec3 | undefined = undefined;

  constructor(
    private readonly gear: Gear,
    private readonly shaft: PlacedShaft,
    /** Radians; NaN on a bevel gear or cone without a mesh. */
    private readonly angle: number,
  ) {
    const cylinder = GEAR_FORMS[gear.kind].pitchAngle;
    this.isCone = cylinder === null;
    this.pitchAngle = cylinder ?? (Number.isNaN(angle) ? null : angle / DEGREE);
  }

  /** Whether it stands for this gear on this shaft. */
  isOf(gear: Gear, shaft: PlacedShaft, angle: number): boolean {
    return this.gear === gear && this.shaft === shaft && Object.is(this.angle, angle);
  }

  get pitchDiameter(): number {
    return pitchDiameter(this.gear);
  }

  get coneDistance(): number | null {
    return this.isCone && this.pitchAngle !== null ? this.pitchDiameter / 2 / Math.sin(this.angle) : null;
  }

  get centre(): Vec3 {
    this.ownCentre ??= along(this.shaft.origin, this.shaft.axis, this.gear.at);
    return this.ownCentre;
  }

  get outward(): Vec3 {
    return this.isCone ? outwardAxis(this.shaft, this.gear) : this.shaft.axis;
  }

  get apexPoint(): Vec3 | null {
    const cone = this.coneDistance;
    return cone === null ? null : along(this.centre, this.outward, -cone * Math.cos(this.angle));
  }
}

export class StandingMesh implements PlacedMesh {
  readonly misfit: Misfit;
  readonly width: number;
  private line: ReturnType<MeshKind["contact"]> | undefined = undefined;

  constructor(
    readonly kind: MeshKind,
    readonly pair: Pair,
    private readonly shaft1: PlacedShaft,
    private readonly shaft2: PlacedShaft,
    private readonly gear1: PlacedGear,
    private readonly gear2: PlacedGear,
    readonly closesLoop: boolean,
    /** The cone that this mesh asks for is the gears' own. */
    readonly fitsCones: boolean,
  ) {
    const { gears } = pair;
    this.misfit = closesLoop ? kind.misfit(pair, [shaft1, shaft2], [gear1, gear2]) : FITS;
    // A mesh that places its mate puts the two faces level.
    this.width = closesLoop
      ? kind.width(pair, [shaft1, shaft2], [gear1, gear2])
      : Math.min(gears[0].face, gears[1].face);
  }

  /** Whether it stands between these, as it did. */
  isOf(
    pair: Pair,
    shafts: readonly [PlacedShaft, PlacedShaft],
    gears: readonly [PlacedGear, PlacedGear],
    closesLoop: boolean,
    fitsCones: boolean,
  ): boolean {
    return (
      this.pair === pair &&
      this.shaft1 === shafts[0] &&
      this.shaft2 === shafts[1] &&
      this.gear1 === gears[0] &&
      this.gear2 === gears[1] &&
      this.closesLoop === closesLoop &&
      this.fitsCones === fitsCones
    );
  }

  /** The checks that leave its equation out. */
  get holds(): boolean {
    return this.fitsCones && !this.isMissing;
  }

  /** The shafts miss each other by more than can be taken as fitting. */
  get isMissing(): boolean {
    const { millimetres, degrees, modules, unit } = this.misfit;
    return modules > FITS_MODULE && (millimetres > MISFIT_MODULE * unit || degrees > MISFIT_DEGREES);
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
    this.line ??= this.kind.contact(this.pair, [this.shaft1, this.shaft2], [this.gear1, this.gear2]);
    return this.line;
  }
}
