/** What the menu of one part is given. */

export interface MenuItem {
  readonly words: string;
  readonly act: () => void;
  /** Set apart from the items before it: what takes something away. */
  readonly apart?: boolean;
  /** What `act` focuses itself keeps the focus; otherwise it goes back to the button. */
  readonly keepsFocus?: boolean;
}

export interface PartMenuProps {
  readonly label: string;
  readonly items: readonly MenuItem[];
}
