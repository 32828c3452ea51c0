/** The samples in the order of the dialog; title and notice are those of the files, and a test keeps them so. */
import type { Sample } from "./samples";

export const SAMPLES: readonly Sample[] = [
  {
    file: "juice-press",
    title: "Juice press",
    notice:
      "Smooth wheels of 60 and 120 mm and gears of 20 and 40 teeth both give 1/2, but the smooth pair slips once its screw asks for more than 3.6 N·m.",
  },
  {
    file: "puppet-stage",
    title: "Puppet stage",
    notice:
      "Both puppets turn at the same speed, one the other way: the idler's 18 teeth change nothing but the way round.",
  },
  {
    file: "well-hoist",
    title: "Well hoist",
    notice:
      "The drum turns twelve times slower than the motor with twelve times the torque, and the power is the same at both.",
  },
  {
    file: "twin-sluice-gates",
    title: "Twin sluice gates",
    notice: "Seen from one end the two spindles turn opposite ways; each seen from its own gate, they turn alike.",
  },
  {
    file: "two-leaning-lanterns",
    title: "Two leaning lanterns",
    notice:
      "The pitch cones stand 8 to 7 high at 60 degrees and 4 to 1 at 120, yet both lanterns turn twice for three turns of the crank: the teeth set the ratio.",
  },
  {
    file: "big-bell-small-bell",
    title: "Big bell, small bell",
    notice: "The gears of twice the module give the same speed and the same torque with half the force on the teeth.",
  },
  {
    file: "awning-round-a-corner",
    title: "Awning round a corner",
    notice:
      "The equal gears only hand the turning on; the bevel pair leads it round the corner and halves the speed, at 70 degrees as at any other angle.",
  },
  {
    file: "paper-carousel",
    title: "Paper carousel",
    notice:
      "7 turns of the sun give 2 of the carousel; how many planets there are, and how many teeth they have, changes nothing.",
  },
  {
    file: "hand-cart-on-a-bend",
    title: "Hand-cart on a bend",
    notice:
      "The wheel outside the bend turns at 40 rev/min and the one inside at 20; the cage between them turns at the mean, 30.",
  },
  {
    file: "three-jam-four-turn",
    title: "Three in a ring jam, four turn",
    notice:
      "Neighbours turn opposite ways, so a ring of gears turns only where their number is even: crank the three, then the four.",
  },
];
