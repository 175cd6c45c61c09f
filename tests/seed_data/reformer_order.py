"""The reformer's 80 as commonly taught, set down before the edition was written.

Common practice, from memory of the New York lineage as it is widely taught: no published list was at hand. Springs are
equal ones on a machine of four. Each row: number, id in the edition (with a position where an exercise has several),
springs, foot bar, box, straps, repetitions. "-" is none; "." is left to the school.
"""

ROWS = """
1 reformer-footwork#toes 4 up - - 10
2 reformer-footwork#arches 4 up - - 10
3 reformer-footwork#heels 4 up - - 10
4 reformer-footwork#tendon-stretch 4 up - - 10
5 reformer-hundred 4 down - hands 10
6 reformer-overhead 2 down - hands 3-5
7 reformer-coordination 2 down - hands 3-5
8 reformer-leg-circles 2 down - feet 5
9 reformer-frog 2 down - feet 8-10
10 reformer-rowing-sternum 1-2 down - hands 3
11 reformer-rowing-ninety 1-2 down - hands 3
12 reformer-rowing-chest 1 down - hands 3
13 reformer-rowing-hips 1 down - hands 3
14 reformer-shaving 1 down - hands 3
15 reformer-hug 1 down - hands 3
16 reformer-swan 1-2 up long - 3-5
17 reformer-pulling-straps-1 1-2 down long hands 3-5
18 reformer-pulling-straps-2 1-2 down long hands 3-5
19 reformer-backstroke 2 down long hands 3
20 reformer-long-box-teaser 1-2 down long hands 3
21 reformer-breaststroke 1-2 down long hands 3
22 reformer-horseback 1-2 down long hands 3-5
23 reformer-grasshopper 2 up long - 3
24 reformer-box-rocking 1 down long hands 3-5
25 reformer-box-swimming 1-2 up long - 10
26 reformer-long-stretch 2 up - - 3-5
27 reformer-down-stretch 2 up - - 3
28 reformer-up-stretch 2 up - - 3
29 reformer-elephant 2 up - - 5-8
30 reformer-elephant-one-leg 2 up - - 3
31 reformer-arabesque 2 up - - 3
32 reformer-long-back-stretch 2 up - - 3
33 reformer-stomach-massage-round 4 up - - 8-10
34 reformer-stomach-massage-hands-back 3 up - - 8-10
35 reformer-stomach-massage-reach 2 up - - 4-8
36 reformer-stomach-massage-twist 2 up - - 3
37 reformer-tendon-stretch 2 up - - 3-5
38 reformer-tendon-stretch-side 2 up - - 3
39 reformer-short-box-round all down short foot-strap 3-5
40 reformer-short-box-flat all down short foot-strap 3-5
41 reformer-short-box-side all down short foot-strap 3
42 reformer-short-box-twist all down short foot-strap 3
43 reformer-short-box-around all down short foot-strap 2
44 reformer-short-box-tree all down short foot-strap 3
45 reformer-short-box-side-sit-ups all down short foot-strap 3
46 reformer-short-spine 2 down - feet 3-5
47 reformer-semi-circle 2 up - - 3
48 reformer-headstand-1 1-2 up - - 3
49 reformer-headstand-2 1-2 up - - 3
50 reformer-chest-expansion 2 down - hands 3
51 reformer-thigh-stretch 2 down - hands 3
52 reformer-arm-circles 1 down - hands 3-5
53 reformer-arm-circles-front 1 down - hands 3-5
54 reformer-snake 1-2 up - - 3
55 reformer-twist 1-2 up - - 3
56 reformer-corkscrew 2 down - - 3
57 reformer-tick-tock 2 down - - 3
58 reformer-balance-control-step-off 2 down - - 3
59 reformer-balance-control-front 1-2 up - - 3
60 reformer-balance-control-back 1-2 up - - 3
61 reformer-high-bridge 2 down - . 3
62 reformer-long-spine 2 down - feet 3
63 reformer-knee-stretch-round 2 up - - 8-10
64 reformer-knee-stretch-arched 2 up - - 8-10
65 reformer-knee-stretch-knees-off 2 up - - 5-10
66 reformer-running 4 up - - 10-25
67 reformer-pelvic-lift 4 up - - 5-10
68 reformer-push-up-front 1-2 up - - 3-5
69 reformer-push-up-back 1-2 up - - 3-5
70 reformer-star 1-2 up - - 3
71 reformer-side-split 1-2 . - - 3-5
72 reformer-front-split 2 up - - 3-5
73 reformer-russian-split 2 up - - 3
74 reformer-gondola 2 down - - 3
75 reformer-cartwheel 1-2 up - - 1-2
76 reformer-mermaid 1-2 up - - 3
77 reformer-single-leg-footwork 2-3 up - - 10
78 reformer-supine-arms 1-2 down - hands 5
79 reformer-jackrabbit 2 . - - 20
80 reformer-hip-lunge 1-2 up - - 3
"""

ORDER = [line.split() for line in ROWS.strip().splitlines()]
