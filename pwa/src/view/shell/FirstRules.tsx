/** Tells a manager once that inspections of release 0.1 do not count by today's rules, with the way to which and why. */

import { useEffect, useState } from "preact/hooks";
import type { Actions, CountedBefore } from "../../flow/model";
import { Button } from "../ui/Button";
import { Banner } from "../ui/Card";
import { passes } from "../words/passes";

const words = passes.told;

export function FirstRules({ actions }: { actions: Actions }) {
  const [cars, setCars] = useState<CountedBefore[]>([]);
  useEffect(() => {
    // Without the server, or before this part of the app is kept, the next start asks again.
    const ask = async () => {
      const found = await actions.countedBefore().catch(() => null);
      if (found?.length === 0) await actions.toldOfPasses();
      setCars(found ?? []);
    };
    void ask();
  }, []);
  if (cars.length === 0) return null;
  const follow = (car: string) => {
    actions.chooseCar(car);
    actions.go("passes");
    void actions.toldOfPasses();
  };
  const leads = cars.map(({ car, passes: n }) => (
    <Button key={car} onClick={() => follow(car)}>
      {words.of(car, n)}
    </Button>
  ));
  return (
    <Banner
      tone="caution"
      title={words.title}
      actions={
        <>
          {leads}
          <Button kind="text" onClick={() => void actions.toldOfPasses()}>
            {words.close}
          </Button>
        </>
      }
    >
      {words.text}
    </Banner>
  );
}
