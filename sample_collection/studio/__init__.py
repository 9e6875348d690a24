"""The studio that draws the photographs of the sample collection.

Nothing here is a photograph: every picture is drawn from the record of its quilt (setting, blocks,
borders, readings) and the drafting of its pattern, in cloth that `cloth` prints, sewn by `layout`,
quilted by `quilting`, lit by `relief` and hung by `room`. One seed makes every picture again.
"""
