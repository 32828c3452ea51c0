/** The menu of one part: it comes with the first press on any of the buttons with three dots. */
import { Ellipsis } from "lucide-react";
import { DropdownMenu } from "radix-ui";
import { useState } from "react";
import type { PartMenuProps } from "./part-menu";
import styles from "./parts-list.module.css";

export function OpenablePartMenu({ label, items, startsOpen }: PartMenuProps & { readonly startsOpen: boolean }) {
  const [open, setOpen] = useState(startsOpen);
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
