/** A photo by its hash: the picture from this phone or the server, or words where neither has it yet. */

import { useEffect, useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import { common } from "../words/common";

interface Photo {
  sha256: string;
  alt: string;
  photoUrl: Actions["photoUrl"];
}

function Photo({ sha256, alt, photoUrl }: Photo) {
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    let here = true;
    photoUrl(sha256, 320).then(
      (found) => here && setUrl(found),
      () => here && setUrl(null),
    );
    return () => {
      here = false;
    };
  }, [sha256, photoUrl]);
  if (url === null) return <span class="thumb none">{common.photoMissing}</span>;
  return <img class="thumb" src={url} alt={alt} width="88" height="88" loading="lazy" />;
}

/** All photos of one thing in a row; nothing where it has none. */
export function Photos({ photos, photoUrl }: { photos: string[]; photoUrl: Actions["photoUrl"] }) {
  if (!photos.length) return null;
  return (
    <div class="row">
      {photos.map((sha256, place) => (
        <Photo key={sha256} sha256={sha256} alt={common.photoAlt(place + 1, photos.length)} photoUrl={photoUrl} />
      ))}
    </div>
  );
}
