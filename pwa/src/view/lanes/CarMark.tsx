/** A car's number with the pattern that its blocks have, so that none is told by colour alone. */

interface CarMarkProps {
  car: string;
  /** Which of the plan's cars it is. */
  place: number;
}

export const CarMark = ({ car, place }: CarMarkProps) => <b class={`car-mark of-${place % 4}`}>{car}</b>;
