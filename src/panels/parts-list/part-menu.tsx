/** The commands of one part, behind a button with three dots. */
import { Ellipsis } from "lucide-react";
import { DropdownMenu } from "radix-ui";
import { useState } from "react";
import styles from "./parts-list.module.css";

export interface MenuItem {
  readonly words: string;
  readonly act: () => void;
  /** Set apart from the items before it: what takes something away. */
  readonly apart?: boolean;
  /** What `act` focuses itself keeps the focus; otherwise it goes back to the button. */
  readonly keepsFocus?: boolean;
}

export function PartMenu({ label, items }: { readonly label: string; readonly items: readonly MenuItem[] }) {
  const [open, setOpen] = useState(false);
  return (
    <DropdownMenu.Root modal={false} open={open} onOpenChange={setOpen}>
      <DropdownMenu.Trigger
        className={styles.icon}
        aria-label={label}
        title={label}
        // Opened by the whole click: one that opens on pressing would carry out what lies under the pointer on letting go.
        onPointerDown={(event) => event.preventDefault()}
        onClick={() => setOpen(!open)}
      >
        <Ellipsis size={20} aria-hidden />
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className={styles.menu} align="end" collisionPadding={8}>
          {items.map((item) => (
            <DropdownMenu.Item
              key={item.words}
              className={styles.menuItem}
              data-apart={item.apart || undefined}
              // After the menu has gone, so that a field that the command focuses keeps the focus.
              onSelect={() => (item.keepsFocus ? setTimeout(item.act) : item.act())}
            >
              {item.words}
            </DropdownMenu.Item>
          ))}
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  );
}
