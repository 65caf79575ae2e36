/** Photos by their hash: small in a row, large when tapped; words where neither this phone nor the server has one yet. */

import { useEffect, useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import type { RingPanelProps } from "../ring/RingPanel";
import { common } from "../words/common";
import { lazy } from "./lazy";
import { useOpen } from "./useOpen";

const RingPanel = lazy<RingPanelProps>(
  async () => (await import("../ring/RingPanel")).RingPanel,
  () => common.missing(common.markPlace),
);

interface PhotoProps {
  sha256: string;
  place: number;
  of: number;
  photoUrl: Actions["photoUrl"];
}

/** The picture's address, null while it is not there. */
export function useUrl(sha256: string, width: number | undefined, photoUrl: Actions["photoUrl"]): string | null {
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    let here = true;
    photoUrl(sha256, width).then(
      (found) => here && setUrl(found),
      () => here && setUrl(null),
    );
    return () => {
      here = false;
    };
  }, [sha256, width, photoUrl]);
  return url;
}

function Photo({ sha256, place, of, photoUrl }: PhotoProps) {
  const enlarged = useOpen();
  const url = useUrl(sha256, enlarged.isOpen ? undefined : 320, photoUrl);
  if (url === null) return <span class="thumb none">{common.photoMissing}</span>;
  return (
    <button
      type="button"
      class={enlarged.isOpen ? "photo large" : "photo"}
      aria-expanded={enlarged.isOpen}
      aria-label={common.photoLarger(place, of)}
      onClick={enlarged.toggle}
    >
      <img class="thumb" src={url} alt={common.photoAlt(place, of)} loading="lazy" />
    </button>
  );
}

export interface PhotosProps extends Pick<RingPanelProps, "photos" | "photoUrl"> {
  /** Both where one may be marked. */
  markPhoto?: RingPanelProps["markPhoto"];
  onPhotos?: RingPanelProps["onPhotos"];
}

/** All photos of one thing in a row; nothing where it has none. */
export function Photos({ photos, photoUrl, markPhoto, onPhotos }: PhotosProps) {
  const ring = useOpen();
  if (!photos.length) return null;
  return (
    <>
      <div class="row">
        {photos.map((sha256, at) => (
          <Photo key={sha256} sha256={sha256} place={at + 1} of={photos.length} photoUrl={photoUrl} />
        ))}
      </div>
      {onPhotos && (
        <button type="button" class="button" onClick={ring.open}>
          {common.markPlace}
        </button>
      )}
      {ring.isOpen && markPhoto && onPhotos && (
        <RingPanel {...{ photos, photoUrl, markPhoto, onPhotos }} onClose={ring.close} />
      )}
    </>
  );
}
