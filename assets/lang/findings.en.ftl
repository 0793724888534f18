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
emergency-late-what = You did not slow down until { $measured } after the signal, or after someone stepped out or another truck drove into your way, or not at all. The limit is { $limit }.
emergency-late-why = At travelling speed every second costs the length of a truck and more before you even brake.
emergency-late-instead = Do not think and do not steer: arm first. Let it go, or push it right down.

other-brake-used = Used another brake than the one asked for
other-brake-used-what = The signal asked for one end of the arm’s swing, and you stopped in another way.
other-brake-used-why = You need both: letting go when you are in danger of falling, pushing down when your hands are on it. Only what is practised works in fright.
other-brake-used-instead = Read the task before you set off, and move your hands once through the stop while you stand.

missed-mark = Stopped away from the mark
missed-mark-what = You stopped { $measured } from the mark. The task asks for { $limit } or less.
missed-mark-why = Who cannot stop at a line on the floor cannot stop before a rack or a foot.
missed-mark-instead = Begin to slow down earlier, look at the mark, and let the truck come up to it slowly.

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

horn-misused = Used the horn for nobody
horn-misused-what = The horn sounded for { $measured } without a reason. Up to { $limit } is a signal.
horn-misused-why = A horn that sounds all the time tells nobody anything. People stop hearing it, and then it does not help when it must.
horn-misused-instead = One or two short signals where somebody needs them: before moving off, before a hidden place, when someone has not seen you.

tipped-over = The truck tipped over
tipped-over-what = The truck tipped over, and the drive ended.
tipped-over-why = A truck that tips can kill the person who rides it.
tipped-over-instead = Slow down before turns, keep the forks low, and stay off edges.

person-struck = Struck someone
person-struck-what = The truck or its load touched someone on foot and moved on by { $measured }. More than { $limit } is a blow, however slow.
person-struck-why = Even at a walking pace a truck breaks bones: it weighs many times what a person does and does not give way.
person-struck-instead = People go first, always. Slow down as soon as you see someone, and stop if you do not know what they will do.

person-near-miss = Too near to someone
person-near-miss-what = { $measured } was left between the truck and someone on foot; keep { $limit } or more.
person-near-miss-what-slowing = Not to meet someone on foot the truck had to slow down by { $measured }; see to it that { $limit } is enough.
person-near-miss-what-time = { $measured } later the truck and someone on foot would have met; keep { $limit } or more.
person-near-miss-why = People stumble, turn round or step back without looking. What was room enough is then none.
person-near-miss-instead = Slow down early, leave half a metre and more to the side, and let them know that you are there.

person-not-given-way = Did not give way to someone
person-not-given-way-what = You drove onto a crossing while someone was on it or about to step on, or came to where someone had only just been: { $measured }, where the limit is { $limit }.
person-not-given-way-why = Who walks there trusts you to let them pass. They may not even look, and one who stumbles or turns back is under the truck.
person-not-given-way-instead = Look far ahead, at crossings above all. If someone is on your way or near it, stop before it and wait until they are well clear.

stop-line-run = Went over a stop line
stop-line-run-what = Your lowest speed before the stop line was { $measured }. It counts as a stop at { $limit } or less.
stop-line-run-why = The line is there because you cannot see what comes. Rolling slowly is not seeing.
stop-line-run-instead = Stop with the front before the line, look to both sides, then go on.

yield-not-slowed = Did not yield as asked
yield-not-slowed-what = You came to the yield line at { $measured }. Be down to { $limit } before it.
yield-not-slowed-what-look = Before the yield line you turned your head by { $measured } to the side that you looked at less. Turn it by { $limit } or more to both sides.
yield-not-slowed-why = Whoever comes from the side has the right of way, and you see them only if you look.
yield-not-slowed-instead = Slow down to a walk before the line, look left and right, and stop if anything comes.

no-horn-at-blind-spot = No horn at a hidden place
no-horn-at-blind-spot-what = On the way up to the hidden place there was no horn, or only { $measured } before it. Sound it { $limit } or more before.
no-horn-at-blind-spot-why = Behind the corner nobody sees you come. The horn is the only warning they get.
no-horn-at-blind-spot-instead = Slow down, sound the horn a few metres before the corner, and listen for an answer.

too-fast-at-blind-spot = Too fast at a hidden place
too-fast-at-blind-spot-what = You passed a hidden place at { $measured }. Pass it at { $limit } or less.
too-fast-at-blind-spot-why = What comes out of there is in front of you before you can brake.
too-fast-at-blind-spot-instead = Ease off well before the corner and pass it at a walk, ready to stop.

not-looking = Did not look where the truck went
not-looking-what = You looked { $measured } away from your way for too long. Up to { $limit } still sees it.
not-looking-why = In one second of looking aside the truck covers its own length.
not-looking-instead = Look where the truck goes, forks first as well. Glance aside, then back.

not-looked-before-entry = Did not look to both sides
not-looked-before-entry-what = You went in having looked to one side for only { $measured }. Look to each side for { $limit } or more, just before.
not-looked-before-entry-why = Who comes from the side is hidden until you are at the place. Only a look there, and then, shows them.
not-looked-before-entry-instead = At every stop line, hidden place and crossing: slow down, look left, look right, and then go.

outruns-sight = Faster than you could see
outruns-sight-what = You needed { $measured } to stop and saw { $limit } of clear way.
outruns-sight-why = Whoever stands just out of sight is hit before you can stop.
outruns-sight-instead = The less you see, the slower you drive: you must be able to stop in what you see.

wet-not-slowed = Too fast on wet floor
wet-not-slowed-what = You drove at { $measured } on wet floor. Up to { $limit } is fine.
wet-not-slowed-why = On wet floor the way to brake grows and the drive wheel may slide in a turn.
wet-not-slowed-instead = Slow down before the wet patch; on it neither brake hard nor turn hard.

high-speed-in-traffic = High speed among others
high-speed-in-traffic-what = High speed was on at { $measured } where others are about.
high-speed-in-traffic-why = The button is for long free lanes. Among others it takes away the time you need.
high-speed-in-traffic-instead = Leave the button alone unless the lane is free and made for it.

too-close-behind = Too close behind a truck
too-close-behind-what = You followed at { $measured }. Keep { $limit }, about three truck lengths.
too-close-behind-why = If it stops, you need your second to react before you brake at all.
too-close-behind-instead = Drop back until three trucks would fit in between.

meeting-not-stopped = Met a truck without stopping
meeting-not-stopped-what = You still moved { $measured } before a truck that came towards you. Stand when { $limit } is left.
meeting-not-stopped-why = Both may swerve to the same side. Feet and legs are then between the trucks.
meeting-not-stopped-instead = When another truck comes head-on in your lane, stop a truck’s length before it, whatever it does. Then settle who goes.

passed-truck-hidden = Passed a truck at a hidden place
passed-truck-hidden-what = You passed another truck { $measured } from a hidden place. Stay behind within { $limit }.
passed-truck-hidden-why = Where you cannot see what comes there is no room beside a truck to get out of the way.
passed-truck-hidden-instead = Stay behind until the way ahead is open.

wrong-first-reaction = The first thing was not the brake
wrong-first-reaction-what = { $measured } after the surprise you drove back, swerved or stepped off before you braked. What comes first within { $limit } is what counts.
wrong-first-reaction-why = Swerving and driving back bring you where you have not looked, and stepping off puts a foot beside a moving truck.
wrong-first-reaction-instead = Brake first and stay aboard. Everything else comes when the truck stands.

wrong-way-command = Set off the wrong way
wrong-way-command-what = From rest the truck drove { $measured } the wrong way. Up to { $limit } is a twitch.
wrong-way-command-why = A truck that starts the wrong way goes over an edge, or into whoever stands there.
wrong-way-command-instead = Before you turn the throttle, look where you want to go and say to yourself which way to turn it. Begin with very little.

stepped-off-rolling = Stepped off while rolling
stepped-off-rolling-what = You left the platform at { $measured }. Step off at { $limit } or less.
stepped-off-rolling-why = The foot on the floor stops, the truck does not. Ankles are broken between the two.
stepped-off-rolling-instead = Stop, brake, then foot. Wait until the truck stands.

walked-the-truck = Moved the truck from the floor
walked-the-truck-what = The truck moved { $measured } with nobody on the platform. Up to { $limit } counts as a nudge.
walked-the-truck-why = Beside it your feet are where its wheels and forks go, and your arm does not reach the brake.
walked-the-truck-instead = Step on, take hold, and drive it from the platform, even for a metre.

contact-lost = Drove off on one foot
contact-lost-what = The truck reached { $measured } while you were stepping across. Stay at or below { $limit } until you stand.
contact-lost-why = With one foot in the air a jolt throws you off.
contact-lost-instead = Finish the step first: both feet and both hands in place, then throttle.

body-gap-closing = Too little room for your body
body-gap-closing-what = Something solid came within { $measured } of the platform or the tiller. Keep { $limit }.
body-gap-closing-why = Your feet, hands and the tiller are part of the truck. Most who are hurt are pinched against something that stood still.
body-gap-closing-instead = Watch the side where you stand as well as the forks. Slow down to a creep where it gets tight, or take another line.

headroom = Under a beam that is too low
headroom-what = A beam over the platform hung { $measured } lower than you reach.
headroom-why = Forks and truck pass below; your head does not.
headroom-instead = Look up as well as ahead. If you are not sure, stop and go another way.

unchecked-crossing = Onto the dock without checks
unchecked-crossing-what = You drove over the dock plate at { $measured }; up to { $limit } is allowed.
unchecked-crossing-what-checks = You drove onto the dock with checks left out, or with something wrong there: { $measured }.
unchecked-crossing-why = A vehicle that rolls away or a plate that is loose drops truck and rider between dock and vehicle.
unchecked-crossing-instead = Stop before the plate, look at every check, and report what is wrong. Then straight over it at a creep.

false-report = Reported what was not so
false-report-what = You reported that something was wrong, and nothing was. Reports of this kind in the drive: { $measured }.
false-report-why = Every report stops work and sends someone to look. After a few false ones nobody comes.
false-report-instead = Look at each point first, and report what you have seen.

load-shifted = The load slid
load-shifted-what = Something on the forks slid { $measured }. Up to { $limit } is normal.
load-shifted-why = What has begun to slide stands worse than before, and the next turn may throw it off.
load-shifted-instead = Start, turn and stop more gently. If it has slid, stop and set it right before you go on.

load-spilled = Lost goods from the load
load-spilled-what = Cases that came off: { $measured }. Allowed: { $limit }.
load-spilled-why = A falling case hurts whoever stands beside, and what lies on the floor makes the next truck swerve.
load-spilled-instead = Take turns and stops so that the load stays still. After a spill, stop, secure the place, and clear it up.

over-capacity = More than the truck may carry
over-capacity-what = The load is { $measured } of what the plate allows.
over-capacity-why = Over its plate a truck brakes worse, and parts break that nobody expects to break.
over-capacity-instead = Read the plate and the label of the load before you take it. Too heavy: leave it and report it.

loose-object-run-over = Ran over something loose
loose-object-run-over-what = A wheel ran over something that lay on the floor, at { $measured }.
loose-object-run-over-why = A small wheel stops at it, climbs it or slides: you and the load are thrown.
loose-object-run-over-instead = Look at the floor too. Stop, step off, and clear it away.

forks-dragged = Dragged the forks
forks-dragged-what = The forks were at { $measured } in travel. Carry them at { $limit } or more.
forks-dragged-why = They catch on joints and plates, and the truck stops at once while you do not.
forks-dragged-instead = Raise the forks just clear of the floor before you set off.

pallet-pushed = Pushed a pallet
pallet-pushed-what = The truck pushed a pallet { $measured } over the floor. Up to { $limit } is a nudge.
pallet-pushed-why = A pushed pallet breaks, and behind it there may be a rack or a foot.
pallet-pushed-instead = Stop before the pallet, line up, and go in slowly with the forks low enough.

set-down-off = Set down beside the marks
set-down-off-what = The pallet stood { $measured } off its marks. Up to { $limit } is fine.
set-down-off-why = What sticks out is hit by the next truck, and what stands askew cannot be taken up straight.
set-down-off-instead = Line up early, go in straight, stop, look, and only then lower.

load-not-upgrade = The load was downhill
load-not-upgrade-what = On a grade of { $measured } the load was on the downhill side. Above { $limit } it has to be uphill.
load-not-upgrade-why = Downhill of you it can slide off the forks, and you come after it.
load-not-upgrade-instead = With a load, keep the forks uphill, going up as well as going down.

grade-too-fast = Too fast on a slope
grade-too-fast-what = You drove at { $measured } on a slope. Up to { $limit } is slow.
grade-too-fast-why = On a slope every stop is longer, and the weight pulls the truck on or back.
grade-too-fast-instead = Slow down before the slope begins and stay slow until it ends.

load-hides-view = Drove with the load before your eyes
load-hides-view-what = You drove { $measured } with the load hiding the way. Up to { $limit } counts as manoeuvring.
load-hides-view-why = Whoever stands behind the load is pushed by it before you know of them.
load-hides-view-instead = If you cannot see over the load, let it trail: power unit first.

plugging-jerk = Plugged with a jerk
plugging-jerk-what = Going over to plugging, or out of it, the truck jerked with { $measured }. Stay at or below { $limit }.
plugging-jerk-why = A jerk sets a load sliding that a steady pull would leave in place, and can throw you off your feet.
plugging-jerk-instead = Let the throttle pass through neutral slowly, then turn it further bit by bit, and ease it off before the truck stands.

unattended = Left the truck unattended
unattended-what = You were off the truck and it was not made safe: { $measured } long or away, where the limit is { $limit }. Out of sight of where you stepped down it may not be at all.
unattended-why = Someone brushes the throttle or stumbles over the forks, and nobody is there to stop it.
unattended-instead = Forks down, throttle in neutral, key off and with you.

left-unsecured = Left the truck without securing it
left-unsecured-what = You were off the platform for { $measured } and the truck was not secured. Up to { $limit } is a step down.
left-unsecured-why = A truck that can move, or that stands where it cannot be seen, hurts someone while nobody is there to stop it.
left-unsecured-instead = Before you step off: forks down, throttle in neutral, brake on, on the level, and clear of corners and exits.

parked-in-the-way = Parked in the way
parked-in-the-way-what = The truck was left standing on a crossing for { $measured }, with nobody aboard or with someone waiting to cross, or until the drive ended. Up to { $limit } is a short stop.
parked-in-the-way-why = People walk round it into the lane of the other trucks.
parked-in-the-way-instead = Park clear the first time: off crossings, aisles and exits.

## Good deeds

bad-truck-taken = Took a bad truck
bad-truck-taken-what = You drove { $measured } with a truck that must not run; { $limit } is enough to have taken it.
bad-truck-taken-why = What is the matter with it does not get better by driving. A truck that is unsafe in any way is taken out of service.
bad-truck-taken-instead = Tag it out and report it, however pressing the work is. If you find out on the way: stop, step off, report.

defect-missed = Overlooked at the walk-round
defect-missed-what = Something was the matter with this point, and you did not report it.
defect-missed-why = What is overlooked drives along with you and with whoever takes the truck next.
defect-missed-instead = Look closer at each point, from each side it can be seen from, and try what can be tried. After one find go on to the rest.

not-checked = Left out at the walk-round
not-checked-what = You did not look at this point or try it, or gave it no answer.
not-checked-why = A list with gaps says nothing about the gaps, and the signature stands for all of it.
not-checked-instead = Go through the list to its end before you take the truck.

tagged-out-sound = Tagged out a truck that may run
tagged-out-sound-what = You took a truck out of service that may run.
tagged-out-sound-why = Trucks out of service for nothing teach people to ignore the tag.
tagged-out-sound-instead = Tag out what must not run. What may run is reported or noted on the sheet.

speed-settings-touched = Touched the truck's settings
speed-settings-touched-what = You pressed buttons that set the truck's own parameters.
speed-settings-touched-why = A truck that accelerates, brakes or turns otherwise than the next rider expects hurts somebody.
speed-settings-touched-instead = Leave them to whoever services the truck, and report it if they were changed.

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

gave-way = Gave way
gave-way-what = You stood { $measured } before the crossing and went on when it was free; within { $limit } counts.
gave-way-why = People learn that they can trust you, and that makes everybody’s way safer.
gave-way-instead = Keep it up, and look for the next one while you wait.

full-stop = Full stop at the line
full-stop-what = You stood before the line: { $measured }; up to { $limit } counts as standing.
full-stop-why = From rest you see and hear what a rolling truck misses.
full-stop-instead = Keep it up, and look to both sides while you stand.

horn-at-blind-spot = Horn at a hidden place
horn-at-blind-spot-what = You sounded the horn { $measured } before the hidden place; { $limit } or more is in time.
horn-at-blind-spot-why = Whoever was behind the corner knew that you were coming.
horn-at-blind-spot-instead = Keep it up, and be slow all the same: not everyone can hear.

quick-reaction = Quick to brake
quick-reaction-what = You braked { $measured } after the surprise; within { $limit } is quick.
quick-reaction-why = A second saved at travelling speed is a truck’s length of room.
quick-reaction-instead = Keep it up: the brake first, then think.

refused-unsafe-dock = Said no to an unsafe dock
refused-unsafe-dock-what = You saw that something was wrong at the dock and reported it before you drove onto it.
refused-unsafe-dock-why = Saying no is part of the job. Here it kept you out of the gap.
refused-unsafe-dock-instead = Keep it up, also when others are in a hurry.

defect-found = Found at the walk-round
defect-found-what = You looked at this point or tried it, and reported what was the matter.
defect-found-why = That is what the walk-round is for.
defect-found-instead = Keep it up, also on the mornings when nothing is found for weeks.

bad-truck-refused = Refused a bad truck
bad-truck-refused-what = You did not drive on with a truck that must not run.
bad-truck-refused-why = Saying no is part of the job.
bad-truck-refused-instead = Keep it up, also when others are in a hurry.

clean-set-down = Clean set-down
clean-set-down-what = The pallet stood { $measured } from its marks; within { $limit } is clean.
clean-set-down-why = Whoever takes it up next can go in straight.
clean-set-down-instead = Keep it up, with taller loads as well.

full-task = Task done
full-task-what = You did the whole task in { $measured }.
full-task-why = Every step was driven as asked.
full-task-instead = Drive it again and smoother. Speed comes by itself.

clean-lap = Clean through all gates
clean-lap-what = You drove through all the gates of this round or stretch without a fault, in { $measured }.
clean-lap-why = Once can be luck. Several times in a row is skill.
clean-lap-instead = Keep it up the next time round.

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

because-of = It came of this: { $cause }. Of the two only the graver takes points.
just-before = In the second before: up to { $speed }, { $side } sideways, { $along } lengthwise, forks at { $height }.

## What a site changed

changed-again-after = When the same fault counts again
changed-cause-within = How long after a fault something may still come of it
changed-rest-speed = What counts as standing: speed
changed-rest-for = What counts as standing: time
changed-stretch = Length of a stretch that counts as one opportunity
changed-turn = What counts as a turn
changed-stop-from = What counts as a stop
changed-near-person = What counts as a person nearby: distance
changed-ready-from = How sure a skill must be shown to count as ready
changed-called-near = When somebody near calls for the brake: distance
changed-called-soon = When somebody ahead calls for the brake: time
changed-called-out = When somebody who steps out calls for the brake: distance
changed-called-for = How long a call for the brake lasts
changed-steps-on = From how near somebody is about to step onto a crossing
changed-check-reach = From how far a check at a dock is made
changed-check-time = How long a check at a dock takes
changed-check-aside = How straight a check at a dock is looked at
changed-look-closer = How long a point of the truck is looked at
changed-remembers = How long a rider knows the way ahead while looking aside
changed-looks-along = What counts as looking along the way
changed-time-ratio = How slow a computer may be in a pre-test
changed-pauses = How often a pre-test may be paused
changed-spell-metres = After how much way a lasting fault counts again
changed-spell-seconds = After what time a lasting fault counts again
changed-counts-from = From how much way a drive counts that was broken off or ran out of time
changed-notices = Within what angle of the look someone is noticed
changed-notices-moving = Who moves faster than this is noticed farther aside
changed-notices-after = How much later someone far aside is noticed
changed-approach = How far aside one looks for who comes
changed-critical-total = Points in all that a critical finding leaves
changed-majors-of-one-code = How often one major fault may be found in a pre-test
changed-points = Points and pass marks
changed-zones = Speed zones of this site’s own
changed-notes = Sentences of this site’s own beside findings

## How far someone is

readiness-ready = Ready
readiness-practise-more = Practise more
readiness-not-enough-shown = Not enough shown yet

## The pre-test

pretest-on-single = Taken on the single truck
pretest-on-double = Taken on the double truck
pretest-passed = Pre-test passed
pretest-not-passed = Pre-test not passed
pretest-incomplete = Pre-test not complete
pretest-why-critical = Part { $part }: { $what }. One such finding is enough not to pass.
pretest-why-major-again = { $what }: found { $times } times in all parts. Once more than { $limit } is too often for a major fault.
pretest-why-not-done = Part { $part } was not driven to its end: { $ending }.
pretest-why-out-of-time = Part { $part }: its time ran out after { $seconds } s. It is driven and not passed, with what was shown until then.
pretest-why-skill-below = { $skill }: { $points } points, and { $limit } are asked for.
pretest-why-skill-not-shown = { $skill } was not shown at all.
pretest-why-total-below = In total { $points } points, and { $limit } are asked for.
pretest-why-pauses = It was paused { $pauses } times; allowed is { $limit }.
pretest-why-missing = Part { $part } is still to be driven.
pretest-why-too-slow = Part { $part }: time went by too slowly, at { $ratio } % of real time; at least { $limit } % is asked for.

## The debrief

debrief-changed-rules = This site has changed these rules from the defaults:
caution = This is classroom practice. It does not license anyone to drive. Driving a real truck takes hands-on training under supervision and an evaluation in the workplace. Local codes, your employer’s rules and the maker’s manual come first.
