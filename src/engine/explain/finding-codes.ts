/** Every finding code with its cause and its cure: the table that the README shows. A code without its line doesn't compile. */
import { FINDING_CODES, type FindingCode } from "../findings";

export interface CodeWords {
  readonly cause: string;
  readonly cure: string;
}

export const CODE_WORDS: Readonly<Record<FindingCode, CodeWords>> = {
  unreached: {
    cause: "No pose, mesh or shared line says where the shaft stands.",
    cure: "Mesh one of its gears with a placed one, give it a pose, or let it share the line of another shaft.",
  },
  "loop-misfit": {
    cause:
      "A mesh closes a loop between two placed shafts whose distance, apexes or angles don't fit: up to 0.02 module or 0.1 degree a warning, beyond an error.",
    cure: "Move one of the shafts, or change teeth, module or azimuth until the sizes fit.",
  },
  "cone-mismatch": {
    cause: "A later mesh asks a bevel gear for another pitch cone than the one it is cut to.",
    cure: "Change that mesh's shaft angle or teeth until both meshes ask for the same pitch angle.",
  },
  "cone-degenerate": {
    cause: "The shaft angle or the sizes leave a pitch cone without a sensible apex.",
    cure: "Take a shaft angle further from 0 and 180 degrees, or other tooth counts.",
  },
  "ring-too-small": {
    cause: "A ring is no larger than the gear that should turn inside it.",
    cure: "Give the ring more teeth, or the pinion fewer.",
  },
  "module-mismatch": {
    cause: "Mates differ in module, so their teeth have different pitches.",
    cure: "Give both the same module.",
  },
  "pressure-angle-mismatch": {
    cause: "Mates differ in pressure angle, so their flanks don't fit.",
    cure: "Give both the same pressure angle.",
  },
  "shift-sum": {
    cause: "Profile shifts of mates don't cancel (on a ring: aren't equal), while gears stand at their pitch circles.",
    cure: "Make the shifts equal and opposite (on a ring: equal).",
  },
  "no-common-face": {
    cause: "Mates on parallel shafts pass each other: their faces have no part in common.",
    cure: "Slide one of the two along its shaft.",
  },
  "no-shared-frame": {
    cause: "A mesh joins shafts that turn in frames which have nothing in common.",
    cure: "Let both be carried by one shaft, or one of them turn on the axis of the other's carrier.",
  },
  locked: {
    cause: "The meshes by themselves let these shafts turn in no way at all.",
    cure: "Take one mesh out of the loop, or put an idler in.",
  },
  contradiction: {
    cause: "Inputs and held shafts ask for speeds that the teeth don't allow together.",
    cure: "Let one of them go free, or make it an output.",
  },
  free: {
    cause: "Fewer inputs and held shafts than the drive has ways to move.",
    cure: "Turn or hold as many more shafts as the note says; or leave it open, as a differential is.",
  },
  "ratio-long": {
    cause: "An exact ratio has more than 1,000 digits a side and is not written out.",
    cure: "Nothing is wrong; the speed is exact all the same.",
  },
  "out-of-range": {
    cause: "A number is too large or too small for a decimal number of the machine.",
    cure: "Use fewer stages, or smaller speeds and loads.",
  },
  "self-locking": {
    cause: "With the losses given no torque at the input moves the load.",
    cure: "Drive it from the other side, raise the efficiencies, or choose teeth with less power going round in the train.",
  },
  "equal-sharing": {
    cause: "Balance alone doesn't tell how meshes share the load: several planets, or a loop.",
    cure: "Nothing is wrong; allow for an uneven share in a real drive.",
  },
  "input-short": {
    cause: "An input can give less torque or power than the loads need.",
    cure: "Take a stronger motor, a smaller load, or a larger reduction.",
  },
  slips: {
    cause: "A friction pair has to pass on more than friction times normal force.",
    cure: "Press harder, take a rougher pair, larger wheels, or teeth.",
  },
  undercut: {
    cause:
      "A gear has so few teeth that a rack cuts into its flanks near the root: below the whole number a warning, up to the exact limit a note.",
    cure: "More teeth, a positive profile shift, or a larger pressure angle.",
  },
  interference: {
    cause: "The tips of a gear reach past the tangent point of its mate and would dig into its roots.",
    cure: "More teeth on the mate, a lower addendum, or shifted profiles.",
  },
  "contact-ratio": {
    cause: "Fewer than 1.2 pairs of teeth touch on average (common practice).",
    cure: "More teeth, a smaller pressure angle, or a larger addendum.",
  },
  "face-width": {
    cause:
      "The face of a bevel gear is wider than a third of its cone distance or ten modules, or a cone's runs past its apex.",
    cure: "Make the face narrower.",
  },
  "ratio-range": {
    cause: "One stage has a ratio beyond the usual: 6 on parallel shafts, 5 at an angle (common practice).",
    cure: "Split it into two stages.",
  },
  "pitch-speed": {
    cause: "Straight teeth pass faster than usual: 10 m/s on parallel shafts, 5 m/s at an angle.",
    cure: "Turn slower, or take smaller gears.",
  },
  "gears-overlap": {
    cause: "Two gears of one shaft stand in one another.",
    cure: "Move one along the shaft, or make a face narrower.",
  },
  "loop-phase": {
    cause:
      "The teeth of a mesh that closes a loop, or joins two shafts with a place of their own, don't stand in the gaps.",
    cure: "Take an azimuth, a tooth count or a gear's phase that the finding offers.",
  },
  "tips-foul": {
    cause:
      "A pinion has nearly as many teeth as the ring, or internal bevel gear, around it: tips run into tips where they part.",
    cure: "A pinion of fewer teeth, or stub teeth.",
  },
  "pointed-tip": {
    cause: "The two flanks of a tooth meet before its tip circle.",
    cure: "Less addendum, or a smaller profile shift.",
  },
  "tip-trimmed": {
    cause: "The tips would dig into a mate's roots; they are drawn and exported shorter.",
    cure: "Nothing need be done; a profile shift of the pair (opposite on outside gears, alike in a ring) keeps full tips.",
  },
  "tooth-form": {
    cause: "No true tooth, or no gap of the depth that is asked, exists with the gear's numbers.",
    cure: "Bring pressure angle, addendum, shift and backlash nearer to 20, 1, 0 and 0, or take more teeth.",
  },
  "bore-too-large": {
    cause: "The bore leaves no body inside the root circle; it is drawn smaller.",
    cure: "A smaller bore, more teeth or a larger module.",
  },
  "face-too-long": {
    cause: "The face of a conical gear reaches its apex; it is drawn shorter.",
    cure: "Make the face narrower: a third of the cone distance is usual.",
  },
  "coarse-teeth": {
    cause: "So many teeth would need more than two million triangles; they are drawn with straighter facets.",
    cure: "Nothing need be done: the numbers are exact all the same.",
  },
  collision: {
    cause: "Two parts of different shafts take up the same space, at rest or at some turn of a carrier.",
    cure: "Slide a gear along its shaft, or take another azimuth, other sizes or fewer planets; a wide bore lets a shaft through.",
  },
  "collisions-unchecked": {
    cause: "A drive has so many near parts, or carriers within carriers, that not every pair was looked at.",
    cure: "Nothing is wrong; ask for the clearance of the pairs that matter.",
  },
  "out-of-space": {
    cause: "The drive sticks out of the space that it was given, at rest or as its carriers go round.",
    cure: "Smaller gears, other azimuths or places; or a larger space.",
  },
};

/** The table as Markdown rows, in the order of the codes: code, severity, cause, cure. */
export const findingCodeTable = (): string =>
  [
    "| code | severity | cause | cure |",
    "|---|---|---|---|",
    ...(Object.keys(FINDING_CODES) as FindingCode[]).map(
      (code) => `| \`${code}\` | ${FINDING_CODES[code]} | ${CODE_WORDS[code].cause} | ${CODE_WORDS[code].cure} |`,
    ),
    "",
  ].join("\n");
