/**
 * What is likely to stand in form 1, as the preset dictionary of deflate (RFC 1951): what is found here need not be in the
 * link. Links refer to its places, so not a byte of it may ever change. Words of the trade (ISO 1122-1) and of small
 * machines; the likeliest stand last, since near places cost fewer bits.
 */

/** Pieces of sentences, as notes and titles hold them. */
const PIECES =
  "friction|smooth |surface speed|carries |pressure angle|tooth counts|the direction |counterclockwise|clockwise |" +
  "reversed |because |without |between |against |through |another |smaller |larger |longer |shorter |about |" +
  "does not |cannot |changes nothing|whatever |however |only where |only the |as long as |for each |for every |" +
  "the motor |the crank |the wheel |the drum |the shaft |the screw |the pinion |the ring |the sun |the carrier |" +
  "the planets |the idler|the output |the input |the load |the belt |the mill |the pump |the table |" +
  " turns slower than | turns faster than | times slower | times faster | times the torque| at half the speed|" +
  " and the other | the other way round| the other way| the same way| opposite ways| at the same speed| of the same | both | turn | turns | gears | gear | teeth, | teeth | tooth | shafts | shaft | speed | torque | power | ratio | module | bevel | angle | degrees" +
  "| rev/min| N·m| mm| with | from | into | this | that | when | then | than | they | each | more | less | half |" +
  "twice | three | four | two | one | at an angle of |. The |. It |, and | is the | of the | to the | on the | in the |" +
  "turns of the | turns of | give one of the | give 1 of | give 2 of the | and | of | to | in | is | a | the ";

/** Names of shafts. In form 1 a name stands after its length in bytes, doubled. */
const NAMES =
  "Roller|Conveyor|Agitator|Stirrer|Paddle|Blade|Saw|Lathe|Drill|Propeller|Turbine|Generator|Capstan|Windlass|Gate|Door|" +
  "Barrel|Bobbin|Reel|Spool|Fan|Pump|Mill|Millstone|Waterwheel|Water wheel|Windmill|Sails|Hoist|Winch|Drum|Crane|Press|" +
  "Screw|Table|Turntable|Carousel|Clock|Hour hand|Minute hand|Pendulum|Tower|Mixer|Whisk|Bowl|Pedals|Cart wheel|" +
  "Left wheel|Right wheel|Left|Right|Front|Rear|Upper|Lower|Upper shaft|Lower shaft|Upright shaft|Vertical shaft|" +
  "Horizontal shaft|First shaft|Second shaft|Third shaft|Last shaft|Counter shaft|Countershaft|Lay shaft|Layshaft|" +
  "Main shaft|Side shaft|Middle shaft|Intermediate shaft|Intermediate|Cross shaft|Line shaft|Output shaft|Input shaft|" +
  "Driven shaft|Driving shaft|Driven|Driver|First|Second|Third|Fourth|Pinion 1|Pinion|Wheel|Spindle|Axle|Handle|Rod|" +
  "Shaft A|Shaft 1|Shaft|Annulus|Fixed ring|Ring|Sun|Arm|Cage|Carrier|Planet A|Planet 1|Planet|Idler 1|Idler|" +
  "Motor shaft|Output|Input|Crank|Motor";

const TITLES =
  "Planetary |Differential|Gearbox|Reducer|Two-stage |Three-stage |Right-angle |Bevel |drive|train|New drive";

/** Rows of form 1 as small drives have them: heads, steps, sizes; written by hand as numbers, in its order. */
const ROWS = [
  // Meshes in a chain, then beside one another.
  [0, 4, 2, 0, 4, 2, 0, 4, 2, 0, 2, 2, 0, 2, 2, 8, 4, 2, 8, 2, 2, 2, 0, 2, 120, 2, 0, 4, 200, 240, 1],
  // Gears of usual sizes, two to a shaft and one.
  [
    96, 0, 20, 20, 1, 96, 2, 40, 12, 2, 0, 2, 18, 0, 0, 18, 0, 2, 60, 18, 0, 60, 20, 48, 0, 16, 0, 2, 32, 3, 2, 30, 2,
    2, 40,
  ],
  // Ports: an input and an output, with and without a torque.
  [4, 0, 60, 2, 2, 4, 0, 30, 2, 4, 4, 0, 100, 10, 2, 4, 0, 200, 232, 7, 2, 2, 4, 0, 200, 170, 11, 10, 4],
  // A shaft with a pose along x, and shafts that meshes place.
  [2, 2, 2, 10, 0, 6, 0, 2],
] as const;

const encode = (text: string): number[] => [...new TextEncoder().encode(text)];

const named = (name: string): number[] => {
  const bytes = encode(name);
  return [2, 2 * bytes.length, ...bytes];
};

export const dictionary1 = (): Uint8Array =>
  Uint8Array.from([
    ...PIECES.split("|").flatMap(encode),
    ...TITLES.split("|").flatMap(encode),
    ...NAMES.split("|").flatMap(named),
    ...ROWS.flat(),
    // The first shaft of most drives: its name follows, after head and length.
    ...[10, 10, ...encode("Crank"), 6, 0, 2],
    ...[10, 10, ...encode("Motor"), 6, 0, 2],
  ]);
