/** What the handle on a gear's tip circle changes: a button beside the knob that opens the three ways. */
import { Cog, Link2, type LucideIcon, Scaling } from "lucide-react";
import { DropdownMenu } from "radix-ui";
import { memo } from "react";
import css from "./handles.module.css";
import type { SizeWay } from "./size-handle";

interface Way {
  readonly way: SizeWay;
  readonly icon: LucideIcon;
  readonly words: string;
}

const TOOTHED: readonly Way[] = [
  { way: "teeth", icon: Cog, words: "This gear's teeth: its mate keeps its own" },
  { way: "ratio", icon: Link2, words: "Both counts: the ratio is kept" },
  { way: "module", icon: Scaling, words: "Same teeth, other size: the module" },
];
const SMOOTH: readonly Way[] = [
  { way: "teeth", icon: Cog, words: "This diameter: its mate keeps its own" },
  { way: "ratio", icon: Link2, words: "Both diameters: the ratio is kept" },
];

interface SizeChoiceProps {
  readonly way: SizeWay;
  readonly onWay: (way: SizeWay) => void;
  /** The gear has teeth. */
  readonly isToothed: boolean;
}

/** Drawn once for a gear, not for each step of its drag. */
export const SizeChoice = memo(function SizeChoice({ way, onWay, isToothed }: SizeChoiceProps) {
  const ways = isToothed ? TOOTHED : SMOOTH;
  const chosen = ways.find((one) => one.way === way) ?? (ways.at(-1) as Way);
  const label = `What the size handle changes: ${chosen.words}`;
  return (
    <DropdownMenu.Root modal={false}>
      <DropdownMenu.Trigger className={css.chooser} aria-label={label} title={label}>
        <chosen.icon size={18} aria-hidden />
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className={css.menu} align="start" collisionPadding={8}>
          <DropdownMenu.RadioGroup value={chosen.way} onValueChange={(next) => onWay(next as SizeWay)}>
            {ways.map(({ way: one, icon: Icon, words }) => (
              <DropdownMenu.RadioItem key={one} value={one} className={css.menuItem}>
                <Icon size={18} aria-hidden /> {words}
              </DropdownMenu.RadioItem>
            ))}
          </DropdownMenu.RadioGroup>
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  );
});
