/** Opens the camera and reads codes until a run is whole; the camera closes when the screen is left. */

import { useEffect, useRef, useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import type { Scan, ScanNews } from "../../report/handed";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { handover as words, scanWords } from "../words/handover";
import { Taken } from "./Taken";

export function ScanCodes({ scanCodes }: Pick<Actions, "scanCodes">) {
  const { problem, run } = usePending();
  const video = useRef<HTMLVideoElement>(null);
  const scan = useRef<Scan | null>(null);
  const [isOpen, setOpen] = useState(false);
  const [news, setNews] = useState<ScanNews | null>(null);
  const close = () => {
    scan.current?.stop();
    scan.current = null;
    setOpen(false);
  };
  useEffect(() => {
    if (!isOpen || !video.current) return;
    let left = false;
    const hear = (heard: ScanNews) => {
      if (left) return;
      setNews(heard);
      if (heard.news === "taken" || heard.news === "failed") close();
    };
    const screen = video.current;
    run(async () => {
      const opened = await scanCodes(screen, hear);
      // The person may have gone on while the browser asked about the camera.
      if (left) opened.stop();
      else scan.current = opened;
    });
    return () => {
      left = true;
      scan.current?.stop();
      scan.current = null;
    };
  }, [isOpen]);
  const start = () => {
    setNews(null);
    setOpen(true);
  };
  return (
    <>
      {isOpen && <video ref={video} class="camera" muted playsInline aria-label={words.camera} />}
      <p aria-live="polite">{news && news.news !== "taken" && news.news !== "failed" ? scanWords(news) : ""}</p>
      <ProblemLine text={news?.news === "failed" ? scanWords(news) : problem} />
      {news?.news === "taken" && <Taken taken={news.taken} />}
      <button type="button" class="button main wide" onClick={isOpen ? close : start}>
        {isOpen ? words.scanStop : news?.news === "taken" ? words.again : words.scan}
      </button>
    </>
  );
}
