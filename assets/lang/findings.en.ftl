# What the judge says: findings, skills, severities, endings, units, and what stands beside them.
# A finding has four texts: its title, what happened, why it matters, what to do instead.

## Faults

contact-cone = Touched a cone
contact-cone-what = The truck moved into a cone at { $measured }.
contact-cone-why = A cone stands for a rack, a load or someone’s foot. A cone falls over; those do not.
contact-cone-instead = Leave room on both sides. In a turn the forks take a shorter way than the front: go out a little before you turn in.

contact-structure = Ran into something solid
contact-structure-what = The truck ran into a rack, a wall or a load at { $measured }. Up to { $limit } counts as a nudge.
contact-structure-why = A knock can weaken a rack or bring a load down. A foot or a hand in between is crushed.
contact-structure-instead = Slow down early near anything solid. If you are not sure of the room, stop and look.

left-the-lane = Left the lane
left-the-lane-what = A wheel was over the edge of the lane for { $measured }. Up to { $limit } counts as a brush.
left-the-lane-why = Beyond the edge people walk and goods stand. Others trust you to stay on your side.
left-the-lane-instead = Steer early and in small moves. Watch where the load wheels run.

gate-missed = Missed a gate
gate-missed-what = You drove through a later gate before the one that was due.
gate-missed-why = The gates are the way that was planned. On a site, leaving it means being where nobody expects you.
gate-missed-instead = Look for the next gate as soon as you are through one. If you are past it, stop, look, and go back.

gate-wrong-way = Drove through a gate the wrong way
gate-wrong-way-what = You drove through a gate against its direction.
gate-wrong-way-why = In a one-way aisle the other trucks come towards you.
gate-wrong-way-instead = Look at the arrow of the gate before you turn towards it.

over-speed = Too fast for the limit
over-speed-what = You drove at { $measured } where { $limit } is allowed.
over-speed-why = Twice the speed takes four times the way to brake. Where there is a limit, there is a reason that you may not see.
over-speed-instead = Ease off before the zone begins, so that you enter it at its speed.

corner-speed = Too fast in a turn
corner-speed-what = The turn pulled sideways with { $measured }. Stay at or below { $limit }.
corner-speed-why = At this pull a load starts to slide, and you may lose your footing. The truck itself can slide or tip.
corner-speed-instead = Ease off before you turn, not in the turn. A tighter turn needs less speed.

plugging-ran-back = Ran back after plugging
plugging-ran-back-what = After the stop the truck drove { $measured } the other way. Stay within { $limit }.
plugging-ran-back-why = Whoever stands behind you sees a truck that stops, and does not expect it to come back.
plugging-ran-back-instead = Let the throttle go to neutral just before the truck stands.

brake-arm-as-service = Used the arm’s brake for an ordinary stop
brake-arm-as-service-what = The arm went into a brake zone at { $measured } and nothing called for it. Up to { $limit } is fine.
brake-arm-as-service-why = This brake bites at once. It throws you and the load forward, and it wears for the day when you need it.
brake-arm-as-service-instead = Slow down by plugging: turn the throttle gently against the motion. Keep the arm’s brake for emergencies and for standing.

throttle-snatched = Snatched the throttle
throttle-snatched-what = The throttle went from neutral to nearly full in { $measured }. Take at least { $limit }.
throttle-snatched-why = A jerk can throw you off your feet and make a load slide.
throttle-snatched-instead = Turn it a little, feel the truck pull, then turn it further.

emergency-late = Too late in an emergency
emergency-late-what = The arm was not in a brake zone until { $measured } after the signal, or not at all. The limit is { $limit }.
emergency-late-why = At travelling speed every second costs the length of a truck and more before you even brake.
emergency-late-instead = Do not think and do not steer: arm first. Let it go, or push it right down.

other-brake-used = Used another brake than the one asked for
other-brake-used-what = The signal asked for one end of the arm’s swing, and you stopped in another way.
other-brake-used-why = You need both: letting go when you are in danger of falling, pushing down when your hands are on it. Only what is practised works in fright.
other-brake-used-instead = Read the task before you set off, and move your hands once through the stop while you stand.

forks-first-travel = Travelled forks first
forks-first-travel-what = You drove { $measured } forks first. Up to { $limit } counts as manoeuvring.
forks-first-travel-why = The truck steers with the far end then, and the tips reach people’s feet before you do. Only where a load blocks the view does the rule change which end leads, and it asks for the load to trail.
forks-first-travel-instead = Turn the truck round and travel with the power unit first.

forks-high-in-travel = Travelled with the forks high
forks-high-in-travel-what = The forks were at { $measured } in travel. Carry them at or below { $limit }.
forks-high-in-travel-why = A raised load sways more and can fall. The law says it for slopes: only as high as it takes to clear the ground. On the flat it is good practice.
forks-high-in-travel-instead = Lower the forks before you set off: just clear of the floor.

arm-strength-turn = Turned the tiller by arm strength
arm-strength-turn-what = You turned it by the strength of your arms: { $measured }. The limit is { $limit }.
arm-strength-turn-why = It is slow, and over a shift it hurts shoulders and back.
arm-strength-turn-instead = Stand on the side from which your weight can turn the arm. Change sides while the truck stands.

stepped-across-moving = Stepped across while moving
stepped-across-moving-what = You changed sides at { $measured }. Step across only at { $limit } or less.
stepped-across-moving-why = For a moment you stand on one foot. A jolt then puts your other foot on the floor, in front of the truck or beside it.
stepped-across-moving-instead = Stop, step across, then move off.

no-horn-moving-off = Moved off without the horn
no-horn-moving-off-what = There was no horn in the { $measured } before the truck moved off. Sound it within { $limit } before.
no-horn-moving-off-why = People walk close to a truck that stands. The horn tells them that it will move.
no-horn-moving-off-instead = Look round, sound the horn, wait a moment, move off.

tipped-over = The truck tipped over
tipped-over-what = The truck tipped over, and the drive ended.
tipped-over-why = A truck that tips can kill the person who rides it.
tipped-over-instead = Slow down before turns, keep the forks low, and stay off edges.

## Good deeds

clean-plug = Clean stop by plugging
clean-plug-what = You stopped { $measured } from the mark; within { $limit } is clean. The truck did not run back.
clean-plug-why = Who can stop at a line can stop for a person.
clean-plug-instead = Keep it up: ease off, turn the throttle against the motion, neutral just before it stands.

quick-emergency-stop = Quick emergency stop
quick-emergency-stop-what = The arm was in the right brake zone { $measured } after the signal; within { $limit } is quick.
quick-emergency-stop-why = Quick hands save metres.
quick-emergency-stop-instead = Keep it up, and practise the other end of the swing as well.

gentle-start = Gentle start
gentle-start-what = The throttle never rose by more than { $measured } in a quarter of a second; up to { $limit } is gentle.
gentle-start-why = A gentle start keeps the load in its place and you on your feet.
gentle-start-instead = Keep it up, with a load above all.

horn-before-moving = Horn before moving off
horn-before-moving-what = You sounded the horn { $measured } before the truck moved off; within { $limit } is in time.
horn-before-moving-why = Everyone near you knew that the truck would move.
horn-before-moving-instead = Keep it up, and look round as well: a horn does not move people, it warns them.

full-task = Task done
full-task-what = You did the whole task in { $measured }.
full-task-why = Every step was driven as asked.
full-task-instead = Drive it again and smoother. Speed comes by itself.

clean-lap = Clean lap
clean-lap-what = You drove one round through all the gates without a fault, in { $measured }.
clean-lap-why = One clean lap can be luck. Several in a row are skill.
clean-lap-instead = Keep it up for another lap.

## Skills

skill-checking = Checking
skill-mounting = Mounting
skill-starting-and-stopping = Starting and stopping
skill-steering = Steering
skill-forks-and-load = Forks and load
skill-right-of-way = Right of way
skill-speed-and-room = Speed and room
skill-leaving = Leaving

## Severities

severity-good = good
severity-minor = minor
severity-major = major
severity-critical = critical

## Signs of units

unit-cm = cm
unit-m = m
unit-in = in
unit-ft = ft
unit-kmh = km/h
unit-mph = mph
unit-m-s2 = m/s²
unit-ft-s2 = ft/s²
unit-m-s3 = m/s³
unit-ft-s3 = ft/s³
unit-g = g
unit-s = s
unit-nms = N m s
unit-lbfts = lbf ft s
unit-percent = %
unit-deg = °

## Where a rule comes from

source-common-practice = common practice, no written source
source-course-task = task of this course
source-site-rule = rule of the site

## What a site changed

changed-again-after = When the same fault counts again
changed-rest-speed = What counts as standing: speed
changed-rest-for = What counts as standing: time
changed-stretch = Length of a stretch that counts as one opportunity
changed-turn = What counts as a turn
changed-stop-from = What counts as a stop
changed-points = Points and pass marks

## The debrief

debrief-changed-rules = This site has changed these rules from the defaults:
caution = This is classroom practice. It does not license anyone to drive. Driving a real truck takes hands-on training under supervision and an evaluation in the workplace. Local codes, your employer’s rules and the maker’s manual come first.
