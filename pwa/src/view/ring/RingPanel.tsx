/** Marks a place on a photo with a ring: over the whole screen, kept as a new photo after the one that it shows. */

import { useEffect, useRef, useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import { held, MIDDLE, type Marking, type Ring, type Size, turnedOn } from "../../kit/ring";
import { OneOf } from "../bits/Chips";
import { useUrl } from "../bits/Photo";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { common } from "../words/common";
import { ring as words } from "../words/ring";
import { RingControls } from "./RingControls";
import { RingPhoto } from "./RingPhoto";
import { useSize } from "./useSize";
import "./ring.css";

export interface RingPanelProps {
  photos: string[];
  photoUrl: Actions["photoUrl"];
  markPhoto: Actions["markPhoto"];
  /** Takes all photos, the marked one after its original. */
  onPhotos: (photos: string[]) => Promise<void> | void;
  onClose: () => void;
}

/** A ring that nobody placed would point at whatever is in the middle. */
interface Placed extends Marking {
  placed: boolean;
}

const UNMARKED: Placed = { ring: MIDDLE, turn: 0, placed: false };

export function RingPanel({ photos, photoUrl, markPhoto, onPhotos, onClose }: RingPanelProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  // The last one: it was just taken.
  const [photo, setPhoto] = useState(photos[photos.length - 1] ?? "");
  const [marking, setMarking] = useState(UNMARKED);
  const { busy, problem, run } = usePending();
  useEffect(() => dialog.current?.showModal(), []);
  const again = () => setMarking(UNMARKED);
  const choose = (next: string) => {
    setPhoto(next);
    again();
  };
  const keep = () =>
    run(async () => {
      const marked = await markPhoto(photo, marking);
      const others = photos.filter((one) => one !== marked);
      await onPhotos(others.flatMap((one) => (one === photo ? [one, marked] : [one])));
      dialog.current?.close();
    });
  const url = useUrl(photo, undefined, photoUrl);
  const size = useSize(url);
  return (
    <dialog ref={dialog} class="ring-panel incar" aria-label={words.title} onClose={onClose}>
      <h2>{words.title}</h2>
      {photos.length > 1 && (
        <OneOf
          legend={words.which}
          value={photo}
          options={photos.map((value, at) => ({ value, label: words.photo(at + 1) }))}
          onPick={choose}
        />
      )}
      {url && size ? (
        <Placing {...{ url, size, marking, busy, problem }} onMark={setMarking} onAnew={again} onKeep={keep} />
      ) : (
        <p role="status">{common.photoMissing}</p>
      )}
      <button type="button" class="button" disabled={busy} onClick={() => dialog.current?.close()}>
        {words.leave}
      </button>
    </dialog>
  );
}

interface PlacingProps {
  url: string;
  size: Size;
  marking: Placed;
  busy: boolean;
  problem: string | null;
  onMark: (marking: Placed) => void;
  onAnew: () => void;
  onKeep: () => void;
}

function Placing({ url, size: pixels, marking, busy, problem, onMark, onAnew, onKeep }: PlacingProps) {
  const [needs, setNeeds] = useState(false);
  const { ring, placed } = marking;
  const place = (next: Ring) => onMark({ ...marking, ring: held(next), placed: true });
  const size = (next: Ring) => onMark({ ...marking, ring: held(next) });
  return (
    <>
      <p>{words.how}</p>
      <RingPhoto url={url} size={pixels} marking={marking} onMove={place} />
      <RingControls
        ring={ring}
        onMove={place}
        onSize={size}
        onTurn={() => onMark({ ...marking, ...turnedOn(marking) })}
        onAnew={onAnew}
      />
      <p class="soft">{words.stays}</p>
      <ProblemLine text={problem ?? (needs && !placed ? words.needs : null)} />
      <button
        type="button"
        class="button main"
        disabled={busy}
        aria-disabled={!placed}
        onClick={() => (placed ? onKeep() : setNeeds(true))}
      >
        {busy ? words.saving : words.save}
      </button>
    </>
  );
}
