/** One photo as large as its place, with words over it; words where there is none. */

import type { Actions } from "../../flow/model";
import { common } from "../words/common";
import { useUrl } from "./Photo";

interface PictureProps {
  photo: string | null;
  /** Stands over the picture; null for none. */
  label: string | null;
  alt: string;
  /** Said where no photo was taken. */
  none: string;
  photoUrl: Actions["photoUrl"];
}

export function Picture(props: PictureProps) {
  const { photo, label, none } = props;
  return (
    <figure class="picture">
      {label !== null && <figcaption>{label}</figcaption>}
      {photo === null ? <span class="picture-none">{none}</span> : <Shown key={photo} {...props} photo={photo} />}
    </figure>
  );
}

function Shown({ photo, alt, photoUrl }: PictureProps & { photo: string }) {
  const url = useUrl(photo, undefined, photoUrl);
  return url === null ? <span class="picture-none">{common.photoMissing}</span> : <img src={url} alt={alt} />;
}
