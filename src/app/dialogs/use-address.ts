import { useEffect, useState } from "react";

/** An address within the page under which a file can be seen, as long as it is the file; null for none. */
export function useAddress(file: Blob | null): string | null {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    if (!file) return;
    const own = URL.createObjectURL(file);
    setAddress(own);
    return () => {
      setAddress(null);
      URL.revokeObjectURL(own);
    };
  }, [file]);
  return address;
}
