/** The menu of one part: it comes with the first press on any of the buttons with three dots. */
import { Ellipsis } from "lucide-react";
import { DropdownMenu } from "radix-ui";
import { useRef, useState } from "react";
import type { PartMenuProps } from "./part-menu-props";
import styles from "./parts-list.module.css";

interface OpenableProps extends PartMenuProps {
  /** Whether a key opened it; a press that came before this was here has gone unseen. */
  readonly byKey: boolean;
}

/** Open at first, for the press that brought it. */
export function OpenablePartMenu({ label, items, byKey }: OpenableProps) {
  const [open, setOpen] = useState(true);
  const toFirst = useRef(byKey);
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
        <DropdownMenu.Content
          className={styles.menu}
          align="end"
          collisionPadding={8}
          onFocus={({ target, currentTarget }) => {
            if (!toFirst.current || target !== currentTarget) return;
            toFirst.current = false;
            currentTarget.querySelector<HTMLElement>("[role=menuitem]")?.focus();
          }}
        >
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
