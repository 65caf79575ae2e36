/** How large a picture is, once it is read. */

import { useEffect, useState } from "preact/hooks";
import type { Size } from "../../kit/ring";

/** Return its upright size in pixels; null until it is known, and where it can't be read. */
export function useSize(url: string | null): Size | null {
  const [size, setSize] = useState<Size | null>(null);
  useEffect(() => {
    setSize(null);
    if (!url) return;
    const image = new Image();
    image.onload = () => setSize({ width: image.naturalWidth, height: image.naturalHeight });
    image.src = url;
    return () => {
      image.onload = null;
    };
  }, [url]);
  return size;
}
