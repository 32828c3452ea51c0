/** What is wrong with the teeth and bodies that are drawn: each gear by itself, each pair, each loop. */
import type { Drive, ToothedGear } from "../drive/types";
import { hasTeeth } from "../drive/types";
import type { Finding } from "../findings";
import type { DriveIndex, Placement } from "../solved";
import { figures, gearName, nameText, quantity } from "../wording";
import { blankOf, LONGEST_FACE } from "./blank";
import { foulingMargin } from "./fouling";
import { loopPhaseFindings } from "./loop-findings";
import { affordable, outlineOf } from "./outline";
import { askedEnds, type ProfileFaults } from "./profile";
import { QUALITIES, type Quality, type ToothSpec, toothKey, toothSpec } from "./spec";

/** Few segments do: findings need the ends of the tooth alone. */
const ROUGH: Quality = { flank: 1, fillet: 2, body: 8, trim: true };
/** Parts of a module: a tip cut back by less isn't worth a word. */
const NOTABLE = 1e-3;
/** Parts of a pitch: tips that clear each other by a hair may do so by rounding. */
const FOULS = -1e-6;

/** What is known of each gear looked at lately: an edit changes one gear and its mates, and only those are reckoned anew. */
const known = new Map<string, GearState>();
const MOST_KNOWN = 4096;

/** Findings on teeth and bodies, gears first, then pairs, then loops. Pure; gears of the same look are reckoned once. */
export function toothFindings(drive: Drive, index: DriveIndex, placement: Placement): Finding[] {
  const findings: Finding[] = [];
  const specs = drive.gears.map((_, i) => toothSpec(drive, index, placement, i, ROUGH));
  if (known.size > MOST_KNOWN) known.clear();
  drive.gears.forEach((gear, i) => {
    const spec = specs[i];
    if (!spec || !placement.gears[i]) return;
    const key = toothKey(spec);
    const state = known.get(key) ?? stateOf(spec);
    known.set(key, state);
    const name = gearName(drive, gear, index.shaftOfGear[i] ?? -1);
    findings.push(...bodyFindings(gear.id, name, spec, state));
    if (hasTeeth(gear)) findings.push(...toothFormFindings(gear, name, spec, state));
  });
  findings.push(...foulFindings(drive, index, placement, specs));
  findings.push(...loopPhaseFindings(drive, index, placement));
  return findings;
}

interface GearState {
  readonly faults: ProfileFaults | null;
  readonly tip: number;
  readonly isBoreCut: boolean;
  readonly boreLimit: number;
}

function stateOf(spec: ToothSpec): GearState {
  const outline = outlineOf(spec);
  const blank = blankOf(spec, outline.root, outline.sag);
  return {
    faults: outline.profile?.faults ?? null,
    tip: outline.tip,
    isBoreCut: blank.isBoreCut,
    boreLimit: 2 * Math.min(...blank.line.map(([radius]) => radius)),
  };
}

function bodyFindings(id: string, name: string, spec: ToothSpec, state: GearState): Finding[] {
  const findings: Finding[] = [];
  if (state.isBoreCut) {
    findings.push({
      severity: "warning",
      code: "bore-too-large",
      at: [id],
      message: `The bore of gear ${name}, ${quantity(2 * spec.bore, "mm")}, leaves no body inside the root circle: it is drawn ${quantity(state.boreLimit, "mm", 3)} wide; give it a smaller bore, or the gear more teeth or a larger module.`,
    });
  }
  if (spec.form === "conical" && spec.face > LONGEST_FACE * spec.coneDistance) {
    findings.push({
      severity: "warning",
      code: "face-too-long",
      at: [id],
      message: `The face of gear ${name}, ${quantity(spec.face, "mm")}, reaches ${spec.face >= spec.coneDistance ? "past" : "almost to"} the apex, which lies ${quantity(spec.coneDistance, "mm")} from the heel, where teeth have no size: it is drawn ${quantity(LONGEST_FACE * spec.coneDistance, "mm", 3)} long; a third of the cone distance is usual.`,
    });
  }
  return findings;
}

function toothFormFindings(gear: ToothedGear, name: string, spec: ToothSpec, state: GearState): Finding[] {
  const findings: Finding[] = [];
  const { faults } = state;
  if (!faults) return findings;
  const note = (code: Finding["code"], severity: Finding["severity"], message: string) =>
    findings.push({ severity, code, at: [gear.id], message });
  if (faults.isStub) {
    note(
      "tooth-form",
      "warning",
      `No true tooth exists for gear ${name} with pressure angle ${quantity(gear.pressureAngle, "°")}, addendum ${figures(gear.addendum)}, shift ${figures(gear.shift)} and backlash ${quantity(gear.backlash, "mm")}: plain stubs are drawn in its place; bring these nearer to 20°, 1, 0 and 0, or use more teeth.`,
    );
    return findings;
  }
  if (faults.isRootRaised) {
    note(
      "tooth-form",
      "warning",
      `The gaps of gear ${name} can't be as deep as its addendum and clearance ask, for the flanks meet or the axis is reached first: they are drawn shallower, and a mate's tips may touch the bottom; give it more teeth, less addendum or less shift.`,
    );
  }
  const length = spec.form === "conical" ? spec.coneDistance : 1;
  if (faults.pointed !== null) {
    note(
      "pointed-tip",
      "warning",
      `The flanks of gear ${name} meet in a point before its tip circle: the teeth end ${quantity(faults.pointed * length, "mm", 3)} lower, at the point; less addendum or a smaller profile shift leaves a land at the tip.`,
    );
  }
  const cut =
    faults.trimmedFrom === null
      ? 0
      : Math.abs(askedEnds(spec).tip - state.tip) * length - (faults.pointed ?? 0) * length;
  const left = gear.addendum - cut / gear.module;
  if (cut > NOTABLE * spec.module) {
    note(
      "tip-trimmed",
      "note",
      `The tips of gear ${name} would dig into a mate's roots as they are drawn, their rounding included: its teeth are drawn and exported ${quantity(cut, "mm", 3)} shorter, ${left > 0 ? `an addendum of ${figures(left, 3)}` : "not even as far as the pitch circle"}, and so run free; ${spec.form === "ring" ? "the same positive profile shift on both gears" : "an equal and opposite profile shift of the pair"} would do it too.`,
    );
  }
  if (affordable({ ...spec, quality: QUALITIES.bench }).quality.flank < QUALITIES.bench.flank) {
    note(
      "coarse-teeth",
      "note",
      `Gear ${name} has so many teeth that they are drawn with fewer, straighter facets, to stay below two million triangles; its numbers are exact all the same.`,
    );
  }
  return findings;
}

function foulFindings(drive: Drive, index: DriveIndex, placement: Placement, specs: readonly ToothSpec[]): Finding[] {
  return drive.meshes.flatMap((mesh, i): Finding[] => {
    const placed = placement.meshes[i];
    const at = index.gearsOfMesh[i];
    const [a, b] = [specs[at?.[0] ?? -1], specs[at?.[1] ?? -1]];
    if (!placed || placed.kind.isFriction || !at || !a || !b) return [];
    const [first, second] = [drive.gears[at[0]], drive.gears[at[1]]];
    // A ring no larger than its pinion has a finding of its own.
    if (
      !first ||
      !second ||
      (a.form === "ring" ? a.pitchRadius <= b.pitchRadius : b.form === "ring" && b.pitchRadius <= a.pitchRadius)
    )
      return [];
    const margin = foulingMargin(a, b);
    if (margin === null || margin * Math.max(a.teeth, b.teeth) >= FOULS) return [];
    const [large, small] = a.pitchAngle > b.pitchAngle ? [a, b] : [b, a];
    const names = [first, second].map((gear, k) => gearName(drive, gear, index.shaftOfGear[at[k as 0 | 1]] ?? -1));
    return [
      {
        severity: "error",
        code: "tips-foul",
        at: [mesh.id, first.id, second.id],
        message: `In mesh ${nameText(mesh.id)} the tips of ${names[0]} and ${names[1]} foul each other where they part: ${figures(small.teeth)} teeth are too many inside ${figures(large.teeth)}; ${clearCount(large, small)}, or use stub teeth.`,
      },
    ];
  });
}

/** The largest count of pinion teeth that clears the same ring, in words. */
function clearCount(large: ToothSpec, small: ToothSpec): string {
  if (large.form !== "ring") return "use a pinion of fewer teeth, or a smaller shaft angle";
  for (let teeth = small.teeth - 1; teeth >= Math.max(6, small.teeth - 40); teeth--) {
    const pinion = { ...small, teeth, pitchRadius: (small.pitchRadius * teeth) / small.teeth, tipLimit: null };
    const margin = foulingMargin(large, pinion);
    if (margin === null || margin >= 0) return `use a pinion of at most ${teeth} teeth`;
  }
  return "use a pinion of far fewer teeth";
}
