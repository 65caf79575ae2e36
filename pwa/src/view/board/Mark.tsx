/** Shapes beside the board's words: an arrow for what is under way, a star for what is new. */

const POINTS = {
  on: "2,2 22,12 2,22",
  new: "12,0 15.5,8 24,9 17.5,15 19.5,24 12,19 4.5,24 6.5,15 0,9 8.5,8",
};

export function Mark({ mark }: { mark: "on" | "new" }) {
  return (
    <svg class="board-mark" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <polygon points={POINTS[mark]} fill="currentColor" />
    </svg>
  );
}
