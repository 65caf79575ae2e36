"""A second, independent reading of the rules, to judge the product's queue by.

The modules here share no line of code with the product and import nothing but the standard library. They are the
plainest and slowest wording of the rules from entries to the repair queue, in the order of the rules:

    folder     the files of an event folder, read
    entries    which entries stand, after the undone ones are taken away
    versions   which versions of a report replace which, and which are heads
    carmap     what the car map says of a zone and component
    findings   what each version says, and which findings count
    covers     what an entry that closes something covers
    passes     who repaired, and what an inspection's pass is good for
    jobs       one job per key: state, inspection, condition, flags
    money      minutes, rounding, the rate table's rows, the order, what the van is short of
    estimates  a job's estimate and the totals
    release    hold or nothing-open, and what a released car left unseen
    reading    all of it together: the queue as a JSON dict, with its hash

`folders` writes random, valid and nasty event folders to compare on; `setups`, `rate_files`, `log`, `reports`, `work`
and `happenings` draw what is in them, and `texts` writes it down.
"""
