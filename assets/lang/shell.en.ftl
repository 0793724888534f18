# The pages around the canvas, English. One key for each text; the same keys stand in every language.
# What the judge says, skills and units stand in findings.en.ftl.

## Frame

skip-to-content = Skip to the content
nav-label = Main
nav-path = Exercises
nav-progress = Progress
nav-controls = Controls
nav-settings = Settings
yard-label = The yard from above, with the truck. Its state is told in words on the dashboard.
unknown-title = No such page
unknown-page = This address leads nowhere in Coneyard.
to-start = To the start
to-path = To the exercises
delete = Delete
delete-no = Keep it
delete-sure = Delete for good
run-not-there = This run is not kept in this browser.
store-trouble = What is kept in this browser cannot be read ({ $why }). Close other tabs of Coneyard and load this page again.
store-unreadable = { $count ->
    [one] One record that is kept in this browser cannot be read. It is left as it is.
   *[other] { $count } records that are kept in this browser cannot be read. They are left as they are.
}
store-no-answer = the browser has not answered for 10 seconds
language-trouble = the texts of this language could not be fetched: { $why }
said-in-english = { $why }
reader-trouble = A part of this site could not be fetched ({ $why }). Check the connection and try again.
store-undone = What you asked for was not done ({ $why }). Try it again.
store-loose = { $count ->
    [one] One attempt is not kept in this browser ({ $why }). It lasts as long as this page: save it as a file, or make room and try again.
   *[other] { $count } attempts are not kept in this browser ({ $why }). They last as long as this page: save them as files, or make room and try again.
}
store-try-again = Try to keep it again
attempt-slowed = Slowed practice, at { $percent } % of real time where it was slowest. It never counts as the best, nor towards how sure a skill is.
attempt-slowed-short = slowed practice
attempt-forged = This result does not count: driven once more, the run is not what it says it is. How it differs stands below.
attempt-forged-short = does not count: driven once more it is another drive
attempt-too-slow = This computer simulated only { $percent } % of real time: what was driven so is easier than a truck is.
attempt-too-slow-short = computer too slow
attempt-other-simulation = Version { $made } of the simulation made this run, and version { $here } is here: the same controls would now give another drive. The debrief stands as it was judged then, but the run can no longer be driven again, replayed or judged. It can still be saved as a file.
attempt-other-simulation-short = cannot be driven again
no-date = no date
caution-short = Classroom practice. Driving a real truck takes hands-on training under supervision and an evaluation in the workplace.
made-quickly = This site was built quickly: it is larger and slower than it could be. coneyard-workshop build makes the small one.
caution-title = What this is, and what it is not

## Before there are pages (web/index.html), and while something is fetched

start-no-script = Coneyard needs JavaScript and WebAssembly. Please switch them on for this address.
start-loading = Coneyard is being loaded …
start-on-the-way = What you asked for opens as soon as it is loaded.
start-late = Coneyard has not come yet. On a slow line it may take a while. If nothing changes, check the connection and load the page again, in a current browser.
start-old = Coneyard could not be loaded: this browser cannot run it, because it is too old or has WebAssembly switched off. Use a current browser.
start-network = Coneyard could not be loaded: a part of it was not fetched. Check the connection and load the page again.
start-error = Coneyard could not be loaded: it failed at its start. Load the page again, in a current browser; if it happens again, tell whoever runs this site what stands below.
start-again = Load the page again
loading-bytes = { $got } of { $all } MB
loading-share = How much has been loaded

## Without network

works-offline = Kept in this browser: driving works here without network.
newer-ready = A newer version of Coneyard is ready. Nothing that you drove is lost when the page is loaded again.
newer-take = Load the newer version
newer-refused = A drive is still open in another tab. End it or leave it first.

## Who and where

lang-en = English
lang-es = Español
home-title = Learn to drive the tiller-steered pallet truck
home-lead = A yard full of cones and a truck you stand on. Drive, see what went well and what to do better, and drive again.
home-drive-now = Drive now
home-who-title = Who drives
home-private = No account, no e-mail. What you drive stays in this browser.
home-to-path = See all exercises
who-label = Your name, if you like
who-example = Alder, Birch, Cedar …
who-nobody = no name
language-label = Language
units-label = Units
units-imperial = mph, inches
units-metric = km/h, centimetres

## The path

path-title = Exercises
path-lead = In teaching order. Nothing is locked: drive what you like, as often as you like.
group-alone = The truck alone
group-loads = Loads
group-traffic = People, traffic and the building
group-whole = The whole job
path-next = Practise this next
path-best = Best so far
path-last = { $tries ->
    [one] The only try
   *[other] Last of { $tries } tries
}
path-points = { $points } points, { $word }
path-drive = Drive
courses-loading = Fetching the exercises …
courses-trouble = The exercises could not be fetched ({ $why }). Check the connection and load the page again.
course-refused = An exercise was left out: { $why }
truck-single = single truck
truck-double = double truck
ending-done = done to the end
ending-failed = task failed
ending-tipped = the truck tipped
ending-struck = someone was struck
ending-broken-down = the truck broke down
ending-time-out = time ran out
ending-broken = broken off

cut-off-title = Cut off before the end
cut-off-lead = Nothing was lost. Go on from where it stopped, have it judged as it is, or delete it.
cut-off-go-on = Go on
cut-off-judge = Judge as it is
cut-off-trouble = That did not work: { $why }

import-title = Files that were saved
import-label = Runs and pre-tests: choose one file or many. They are judged here and kept with your attempts
import-folder = Or a whole folder of them
import-judging = { $count ->
    [one] Judging the run …
   *[other] Judging file { $n } of { $count } …
}
import-summary = { $kept } taken, { $known } already here, { $refused } not taken.
import-known = (already here)
import-trouble = The file was not taken: { $why }
import-too-large = { $file }: the file has { $bytes } bytes; nothing that is saved here is that large

## Driving

drive-title = Drive
drive-loading = The yard is being loaded …
drive-ending = Working out the debrief …
drive-trouble = The drive cannot go on. What was driven so far is kept under Exercises. If it happens again, load the page again.
drive-no-such-course = There is no such exercise with this truck.
drive-not-kept = This drive is not kept in this browser.
drive-elsewhere = This drive is open in another tab. Go on there, or close that tab and load this page again.
drive-unreadable = The record of this drive cannot be read.
drive-other-simulation = This drive was begun under version { $made } of the simulation, and version { $here } is here: the same controls would now give another drive. It cannot be gone on with, nor judged; delete it and begin anew.
drive-not-being-kept = This browser does not keep the drive while it is driven ({ $why }). Do not close the page before the debrief.
drive-too-slow = This computer is too slow: the yard runs at { $percent } % of real time.
drive-paused = Paused.
drive-task-label = Task
drive-step-of = Step { $step } of { $steps }
needs-label = Keys for this step
need-horn = horn
need-drive = drive
need-drive-back = drive, forks first
need-brake = brake (plugging)
need-let-go = let the arm go
need-push-down = push the arm down
need-look = glance
need-look-behind = look over the forks
need-stand = change sides
need-forks-up = forks up
need-forks-down = forks down
need-key = key off
need-step-off = step off, and on
need-report = report
drive-task-done = Done. Well driven.
drive-laps-done = { $laps ->
    [one] 1 round done.
   *[other] { $laps } rounds done.
}
drive-next-gate = Next gate: { $gate }.
drive-mark-ahead = { $distance } to the mark.
drive-mark-behind = { $distance } past the mark.
drive-signal-from = The signal comes from { $speed } on.
drive-pick-away = { $distance } to the next place.
toward = { $distance } to it, { $place }.
toward-ahead = ahead
toward-ahead-left = ahead on the left
toward-left = on the left
toward-behind-left = behind on the left
toward-behind = behind
toward-behind-right = behind on the right
toward-right = on the right
toward-ahead-right = ahead on the right
hint-nose-out = Not yet: the nose (the end with the motor) is { $distance } outside the box.
hint-tips-out = Not yet: the fork tips are { $distance } outside the box.
hint-side-out = Not yet: the truck's side is { $distance } outside the box.
hint-forks-up = Not yet: lower the forks to the floor.
hint-throttle = Not yet: leave the throttle in neutral.
hint-key-on = Not yet: switch the key off.
hint-aboard = Not yet: step off the platform.
hint-short-of-mark = Not yet: it is { $distance } to the mark. Drive up to it.
hint-too-far = Not yet: { $distance } nearer, then step off.
hint-step-off = Here it is: step off, and on again.
hint-step-on = Wait a second on foot, then step on again.
dock-vehicle-look = Look at the wheels of the vehicle.
dock-vehicle-fine = The wedges lie against the wheels.
dock-vehicle-wrong = The wedges lie away from the wheels.
dock-plate-look = Look at the dock plate.
dock-plate-fine = The plate rests on both sides.
dock-plate-wrong = The plate does not reach the other side.
dock-edge-look = Look at the open edge.
dock-edge-fine = A bar closes the open edge.
dock-edge-wrong = The bar at the open edge hangs down.
drive-signal-stop = STOP
drive-signal-let-go = Let go of the arm
drive-signal-push-down = Push the arm right down
drive-buttons-label = Drive
drive-pause = Pause
drive-go-on = Go on
drive-again = Start again
drive-pace = Time
pace-full = full
pace-half = half
pace-quarter = quarter
pace-double = double
pace-fourfold = fourfold
drive-helps = Helps
drive-step-off = Step off
drive-step-on = Step on
drive-key-off = Key off
drive-key-on = Key on
drive-report = Report a fault
drive-leave = Leave
drive-more = More
drive-full-screen = Full screen
drive-sound = Sound
sound-trouble = This browser plays no sound. Everything that sounds is on the screen too.
drive-self-test = The key is on: the truck tests its lights.
drive-reported = Reported.
struck-title = Someone was struck.
struck-more = The drive ends here. On a real truck: stop, stay, get help. Look at how it came about, or start again.
struck-part = This part ends here. On a real truck: stop, stay, get help.
struck-debrief = See how it came about
struck-on = Go on
leave-title = Leave this drive?
leave-go-on = Back to driving
leave-debrief = End it here and see the debrief
leave-later = Keep it and go on later
leave-throw-away = Throw it away
hint-ahead = hold to drive
hint-tiller = turn the tiller
hint-centre = tiller to the middle
hint-brake = brake: the throttle the other way
hint-stop = in an emergency: let go of the arm
hint-touch = Left thumb: hold the tiller, slide to turn. Lift it and the truck brakes. Right thumb: slide up to drive, the other way to brake, inwards for the horn.
hint-touch-swapped = Right thumb: hold the tiller, slide to turn. Lift it and the truck brakes. Left thumb: slide up to drive, the other way to brake, inwards for the horn.
hint-one-finger = Step the tiller on the left and the throttle on the right. “Let go” brakes.
hint-one-finger-swapped = Step the throttle on the left and the tiller on the right. “Let go” brakes.

## Dashboard

dash-label = Dashboard
dash-speed = Speed
dash-standing = standing
dash-power-unit-first = power unit first
dash-forks-first = forks first
dash-limit = limit { $limit }
dash-over-limit = ▲ over the limit of { $limit }
dash-throttle = Throttle
dash-tiller = Tiller
dash-tiller-middle = in the middle
dash-tiller-left = { $degrees }° left
dash-tiller-right = { $degrees }° right
dash-arm = Arm
dash-arm-upper = upright: brake
dash-arm-driving = driving
dash-arm-lower = down: brake
dash-forks = Forks
dash-stance = Stance
dash-stance-left = on the left
dash-stance-right = on the right
dash-stance-between = stepping across
dash-stance-off = beside the truck
dash-contacts = Hands and feet
dash-contacts-of-four = { $count } of 4 in place
dash-look = Looking
dash-look-ahead = ahead
dash-look-left = left
dash-look-right = right
dash-look-behind = over the forks
dash-load = Load
dash-load-none = none
dash-load-kg = { $pallets ->
    [one] 1 pallet, { $mass } kg; plugging at most { $plugging } m/s²
   *[other] { $pallets } pallets, { $mass } kg; plugging at most { $plugging } m/s²
}
dash-load-lb = { $pallets ->
    [one] 1 pallet, { $mass } lb; plugging at most { $plugging } ft/s²
   *[other] { $pallets } pallets, { $mass } lb; plugging at most { $plugging } ft/s²
}
dash-states = Now
dash-braking = Brake
dash-plugging = Plugging
dash-slipping = Sliding
dash-high-speed = High speed
dash-horn = Horn
dash-stepping = Stepping across
dash-off-platform = Off the platform
dash-key-off = Key off
dash-too-heavy = Load over the capacity

## Devices

key-space = Space
key-shift = Shift
action-ahead = Throttle, power unit first
action-back = Throttle, forks first; against the motion: plugging
action-tiller-left = Tiller to the left
action-tiller-right = Tiller to the right
action-centre = Tiller to the middle
action-let-go = Let go of the arm
action-push-down = Push the arm right down
action-stand-left = Stand on the left
action-stand-right = Stand on the right
action-forks-up = Forks up
action-forks-down = Forks down
action-horn = Horn
action-high-speed = High-speed button
action-twist-25 = Turn the wrist a quarter of the way
action-twist-50 = Turn the wrist half the way
action-twist-75 = Turn the wrist three quarters
action-twist-100 = Turn the wrist all the way
action-twist-at-once = Twist at once, while held
action-look-left = Look left: a glance, or as long as held
action-look-right = Look right: a glance, or as long as held
action-look-behind = Look over the forks: a glance, or as long as held
action-step-off = Step off the platform, and back on
action-key = Turn the key off, and on again
action-report = Report that something is wrong here
action-pause = Pause and go on
action-sound = Sound on and off
action-overview = Overview of the whole yard
action-zoom-in = Nearer
action-zoom-out = Farther
touch-label = Touch controls
touch-tiller = Tiller
touch-tiller-steps = Tiller, step by step
touch-twist = Throttle
touch-twist-steps = Throttle, step by step
touch-ahead = ahead
touch-back = forks
touch-neutral = Throttle to neutral
touch-let-go = Let go
touch-push-down = Push down
touch-horn = Horn
touch-forks-up = Forks up
touch-forks-down = Forks down
touch-look-left = Look left
touch-look-behind = Look over forks
touch-look-right = Look right
touch-high-speed = High speed
touch-stand-left = Stand left
touch-stand-right = Stand right

## The pre-test

pretest-title = Pre-test
pretest-to = To the pre-test
pretest-to-whole = To the pre-test it is part of
pretest-lead = One sitting on all that was practised. It shows you and your trainer where you stand before supervised practice on a real truck.
pretest-what = What it is
pretest-how = It takes about { $minutes } minutes of driving, in { $parts } parts that come one after the other.
pretest-once = Each part is driven once. Whatever happens in it, it counts, and the next one comes. A part whose time runs out is driven too, and not passed.
pretest-no-helps = Helps are off: no predicted path, no stopping distance, no slower time.
pretest-pauses = { $pauses ->
    [one] There is one pause for the whole sitting. Between two parts you may rest without it.
   *[other] There are { $pauses } pauses for the whole sitting. Between two parts you may rest without them.
}
pretest-passes = It is passed with at least { $total } of 100 points in total and at least { $skill } in each skill, every part driven to its end, and no critical finding.
pretest-cut-off = If the browser closes, nothing is lost: go on where it stopped.
pretest-slow = The computer must keep up with real time, at { $percent } % at least. A part driven on a slower one leaves the result open.
pretest-handed-out = The class hands out what you drive; it differs from your neighbour's in sides and times, not in difficulty.
pretest-quickness-unknown = No drive was finished on this computer yet. Drive one exercise on it first: that shows whether it is quick enough.
pretest-quickness-good = This computer kept up with real time in the last drive ({ $percent } %).
pretest-quickness-low = This computer was too slow in the last drive: { $percent } % of real time. Close other programs or take another computer, and drive an exercise again before you begin.
pretest-certifies-nobody = The pre-test certifies nobody. Your trainer decides what comes next.
pretest-parts = The parts
pretest-start-title = Begin
pretest-class-word = Word of the class
pretest-class-word-more = Your trainer tells you both. They decide which side each part is driven on, so that neighbours drive the same things the other way round.
pretest-seat = Number of your seat
pretest-start = Begin the pre-test
pretest-word-wrong = Type the word of your class: 1 to 40 letters or digits.
pretest-seat-wrong = Type the number of your seat: 0 to 9999.
pretest-not-kept = This browser does not keep what you drive ({ $why }). Do not close the page before the pre-test is saved as a file.
pretest-not-there = This pre-test is not kept in this browser.
pretest-other-simulation = What is driven of this pre-test was driven under version { $made } of the simulation, and version { $here } is here. It cannot be joined with what would be driven now, so the pre-test cannot go on: give it up and begin another one.
pretest-open-title = A pre-test is under way
pretest-open-lead = Nothing was lost. It goes on where it stopped.
pretest-go-on = Go on with the pre-test
pretest-past-title = Pre-tests taken
pretest-class-seat = class { $class }, seat { $seat }
pretest-so-far = { $driven } of { $parts } parts driven
pretest-part-of = Pre-test, part { $part } of { $parts }
pretest-first-part = Begin with part 1
pretest-next-part = Next part: { $part }
pretest-part-on = Go on with part { $part }
pretest-part-driven = driven: { $ending }
pretest-part-out-of-time = time ran out: driven and not passed, with what was shown until then
pretest-part-cut = cut off: it goes on where it stopped
pretest-part-due = comes next
pretest-part-left = still to come
pretest-part-not-driven = Not driven.
pretest-part-too-slow = time went by too slowly: { $percent } % of real time
pretest-pauses-left = { $pauses ->
    [0] The pause is used up.
    [one] One pause is left.
   *[other] { $pauses } pauses are left.
}
pretest-stop-between = Between two parts you may rest as long as you like.
pretest-stop = Stop or save
pretest-save-more = To go on later, just close the page. The file holds what is driven so far.
pretest-save = Save the pre-test as a file
pretest-save-trouble = The pre-test could not be saved: { $why }
pretest-give-up = Give up the pre-test
pretest-give-up-sure = Give it up? Parts that are driven stay. What was driven of a part under way is deleted, and the pre-test cannot go on.
pretest-give-up-no = No, go on
pretest-give-up-yes = Yes, give it up
pretest-was-given-up = It was given up before its last part.
pretest-no-pause-left = No pause left
pretest-paused = This is the one pause of the pre-test.
pretest-held = Held still because the page was left. It does not count as the pause.
pretest-too-slow = A part driven like this leaves the result of the pre-test open.
pretest-part-ending = The part is being kept …
pretest-elsewhere = This part is being driven in another tab. Go on there, or close that tab and load this page again.
pretest-leave = Leave the pre-test?
pretest-leave-held = The yard is held still meanwhile: that was the one pause.
pretest-leave-not-held = The pause is used up, so the yard goes on meanwhile.
pretest-leave-end = End this part here; it counts as broken off
pretest-result-trouble = The result cannot be worked out: { $why }
pretest-begun = Begun
pretest-duration = Time driven
pretest-parts-driven = Parts driven
pretest-pauses-taken = Pauses
pretest-not-shown = Not shown so far: { $skills }.
pretest-missing = { $parts } parts are not driven yet.
pretest-other-way = { $title }, the other way round
pretest-differs = Driven once more from the recorded controls, these parts come out different: { $parts }. This result does not count.
pretest-good-deeds = { $count ->
    [0] nothing stood out
    [one] 1 good deed
   *[other] { $count } good deeds
}
pretest-part-debrief = Debrief of this part

## Debrief

debrief-title = Debrief
debrief-loading = Looking for the debrief …
debrief-total = Result
debrief-of-hundred = of 100 points
debrief-skills = By skill
debrief-clean-of = { $clean } of { $opportunities } without a fault
debrief-good = What went well
debrief-no-good = Nothing stood out yet. A clean stop at the line, a horn in time or a gentle start will show up here.
debrief-faults = What to do better
debrief-no-faults = No fault was seen.
debrief-measured = Measured { $measured }, limit { $limit }
debrief-measured-least = Measured { $measured }, at least { $limit } is asked for
debrief-measured-alone = Measured { $measured }
debrief-times = { $times } times
debrief-rule = Rule: { $rule }.
debrief-look = Look at it ({ $at })
debrief-deed = { $times ->
    [one] { $title }
    [2] { $title }, twice
    [3] { $title }, three times
    [4] { $title }, four times
    [5] { $title }, five times
   *[other] { $title }, { $times } times
}
debrief-took = { $times ->
    [one] { $title } ({ $severity })
   *[other] { $title }, { $times } times ({ $severity })
}
debrief-worst = First of all
debrief-other-faults = Also to do better
debrief-plan-key = What the plan shows
debrief-plan-trouble = The path is missing on the plan: { $why }
debrief-again-not-done = Not driven to its end so that it counts: drive it once more.
debrief-again-practise = What most needs practice: { $skill }. This exercise asks for it: drive it once more.
debrief-enough = Good enough to go on; what is below can still be better.
debrief-practise-skill = What most needs practice: { $skill }.
debrief-nothing-at-fault = Nothing was at fault: go on along the path.
debrief-drive-next = Drive “{ $title }”
debrief-not-shown = Not shown in this exercise: { $skills }.
debrief-does-not-count = { $ending }. These points are of the part that was driven; they do not count as a result.
debrief-in-part = { $ending }. { $percent } % of the exercise is done, and it has that share of the points which the driven part shows. They do not count as a result.
debrief-replay = Replay
debrief-again = Drive it again
debrief-export = Save the run as a file
debrief-print = Print
export-trouble = The run could not be saved: { $why }
verdict-title = Is the run what it says it is?
verdict-reproduces = Yes: driven once more from the recorded controls, everything came out the same.
verdict-differs = No: driven once more, it first differs in second { $second }. This result does not count.
verdict-debrief-differs = No: the drive comes out the same, but not the debrief that came with it. The computed one is shown, and this result does not count.
verdict-digest = Last digest { $digest }
points-well = well shown
points-enough = enough
points-practise = practise more
points-not-shown = not shown

## Debrief of a walk-round

round-practice = Practice
round-daily = Daily start
round-fine = fine
round-no-answer = no answer
round-hours = { $hours } h
round-view-above = from above
round-view-left = from the left
round-view-right = from the right
round-view-nose = from the power unit's end
round-view-tips = from the fork tips
round-view-platform = beside the platform
round-view-desk = at the tiller
round-shows-tried = Only when it is tried
round-shows-glance = At a glance ({ $views })
round-shows-one-side = When looked at closer, and only from one side ({ $views })
round-shows-closer = When looked at closer ({ $views })
round-hits = Found { $is } of { $of }
round-grades = As grave as it is: { $is } of { $of }
round-further = Found after the first: { $is } of { $of }
round-false = Reported without cause: { $is } of { $of } points
round-left-out = { $count ->
    [one] 1 point without an answer
   *[other] { $count } points without an answer
}
debrief-walk = The walk-round
debrief-walk-sheet = The sheet of the day
debrief-walk-tagged = Tagged out, and it must not run.
debrief-walk-tagged-sound = Tagged out, though it may run.
debrief-walk-took-bad = Taken, though it must not run.
debrief-walk-took-worn = Taken: it may run, with what it has on the sheet.
debrief-walk-took-sound = Taken, and nothing was the matter with it.
debrief-walk-open = Neither taken nor tagged out.
debrief-walk-took = It took
debrief-walk-no-score = Time is not scored.
debrief-walk-hours-right = The hour meter was written down rightly: { $hours }.
debrief-walk-hours-wrong = Written down of the hour meter: { $read }. It showed { $is }.
debrief-walk-hours-none = The hour meter was not written down. It showed { $is }.
debrief-walk-matter = What was the matter
debrief-walk-nothing = Nothing: every point of this truck was sound.
debrief-walk-no-drawings = The drawings are not there: { $why }
debrief-walk-found = found
debrief-walk-too-mild = found, taken too lightly
debrief-walk-too-grave = found, taken too gravely
debrief-walk-said-fine = missed: said to be fine
debrief-walk-not-answered = missed: no answer
debrief-walk-sound = Sound:
debrief-walk-here = This truck:
debrief-walk-here-tried = This truck, when tried:
debrief-walk-shows = Where it shows
debrief-walk-answer = Your answer
debrief-walk-right = The right one
debrief-walk-why = Why
debrief-walk-made-up = Reported, and nothing was the matter
debrief-walk-left-out = Without an answer
debrief-next-truck = Next truck

## Sheet of a walk-round

sheet-title = Walk-round before the shift
sheet-none = This drive has no walk-round, so it has no sheet.
sheet-shift = Shift
sheet-hours = Hour meter, read
sheet-by = Inspected by
sheet-list = Check list
sheet-point = Point
sheet-answer = Answer
sheet-reason = Reason
sheet-note = Note
sheet-outside = From outside
sheet-desk = At the tiller
sheet-tried = Tried
sheet-decision = Decision
sheet-taken = truck taken
sheet-tagged = truck tagged out of service, and reported
sheet-undecided = none
sheet-signed-by = Inspected by, signature
sheet-received-by = Received by
sheet-caution = This sheet is of a practice truck in a simulation and says nothing about any real one. At work the site's own sheet, the employer's rules and the maker's manual come first, and competent people decide.

## Debrief on paper

print-title = Debrief of a practice drive
paper-label = Paper
paper-a4 = A4
paper-letter = Letter
print-now = Print
print-working = Drawing the path …
print-trouble = Something is missing on this page: { $why } The rest can be printed.
print-page-of = Page { $page } of { $pages }
print-trainee = Trainee
print-trainer = Trainer
print-date = Date
print-signatures = To sign
print-exercise = Exercise
print-truck = Truck
print-started = Driven
print-duration = Duration
print-length = { $minutes ->
    [0] { $seconds } s
   *[other] { $minutes } min { $seconds } s
}
print-rules = Site rules
print-rules-shipped = the defaults, unchanged
print-rules-unnamed = rules without a name, changed from the defaults
print-rules-changed = Changed from the default rules
print-plan = Plan of the drive
print-plan-label = { $count ->
    [0] The course from above with the path driven.
    [one] The course from above with the path driven and 1 finding by its number.
   *[other] The course from above with the path driven and { $count } findings by their numbers.
}
print-north = N
print-skill = Skill
print-points = Points
print-word = Result
print-opportunities = Without a fault
print-share = Share, and where the true one lies
print-share-more = In brackets: the 95 % interval after Wilson. The fewer opportunities, the wider it is.
print-all-points = Where a skill has 0 points, a critical finding or many faults took all of them, however often it was right.
print-clean-of = { $clean } of { $opportunities }
print-no-good = Nothing stood out in this drive.
print-practise = What to practise
plan-way = path driven
plan-lane = lane
plan-wet = wet floor
plan-dusty = dusty floor
plan-plate = dock plate
plan-ramp = ramp
plan-dock = dock
plan-crossing = crossing for people on foot
plan-zone = speed zone
plan-bay = bay
plan-box = box to stop in
plan-gate = gate
plan-paint = painted line
plan-trigger = line that arms a signal
plan-yield = yield line
plan-mark = mark to stop at
plan-stop = stop line
plan-overhead = overhead or curtain
plan-rail = rail or panel
plan-rack = rack or load
plan-wall = wall
plan-cone = cone

## Values of rules

rule-changed = { $name } { $here } instead of { $usual }
rule-none = none
rule-on = on
rule-off = off
limit-on = watched:
limit-severity = severity
limit-skill = skill
limit-graver = graver:
limit-graver-above = graver above
limit-graver-below = graver below
limit-value = value
limit-speed-limit = speed limit of the site
limit-minor = points for a minor fault
limit-major = points for a major fault
limit-most-by-one-code = points for one kind of fault at most
limit-pass-skill = points asked for in each skill
limit-pass-total = points asked for in total
limit-after = after
limit-again-every = counts again every
limit-at-a-line = when standing at a line
limit-away = distance to the truck
limit-before = before
limit-closest = critical below a gap of
limit-closing = speed of closing in
limit-closing-speed = speed of closing in
limit-creep = creeping speed
limit-distance = distance
limit-effort = effort
limit-excess = allowed over the limit
limit-fast = fast is above
limit-for = for
limit-forks = fork height
limit-from = from
limit-from-mark = distance to the mark
limit-gap = gap
limit-gap-fast = gap when fast
limit-glance = length of a look
limit-grace = time to begin to brake
limit-grade = grade
limit-habit = speed when it is a habit
limit-hand = quickest hand
limit-height = height
limit-held = held for
limit-hidden = from a hidden place
limit-jerk = jerk
limit-lately = in the last
limit-load-closing-speed = speed of closing in with the load
limit-look = angle of looking
limit-moved = moved
limit-near = near is within
limit-normal-again = normal again after
limit-of-load = share of the limit with a load
limit-off = off by
limit-off-path = angle off the path
limit-over = over a time of
limit-own-speed = own speed
limit-ran-back = ran back
limit-reaction = reaction time
limit-rise = rise
limit-settle = time to settle
limit-share = share of the time
limit-side-acceleration = side acceleration
limit-slide = slid by
limit-sliding = speed of sliding along
limit-slowing = slowing needed
limit-slowing-hard = hard slowing needed
limit-speed = speed
limit-spill-within = spilled within
limit-steer = steering angle
limit-stood = stood for
limit-stood-within = stood within
limit-struck-within = struck within
limit-then-over = then over it at
limit-throttle = throttle
limit-time = time
limit-times = times
limit-together = counted together within
limit-turned = turned by
limit-until = until
limit-up-to-speed = up to a speed of
limit-watch = watched for
limit-within = within

## Replay

replay-title = Replay
replay-loading = The run is being opened …
replay-trouble = The run cannot be shown.
replay-to-debrief = To the debrief
replay-play = Play
replay-pause = Pause
replay-finding-before = To the finding before
replay-finding-after = To the next finding
replay-tick-back = One tick back
replay-tick-on = One tick on
replay-pace = Time
replay-everything = Show everything
replay-full-screen = Full screen
replay-findings = Findings
companion-title = Drive beside it
companion-nobody = nobody
companion-best = own best
companion-model = model drive
companion-working = The second run is being made …
companion-trouble = The second run could not be shown: { $why }
timeline-label = Timeline
timeline-marks = Findings on the timeline
timeline-mark = { $title }, at { $at }
timeline-place = Place in the run
timeline-at = { $at } of { $length }
trace-speed = Speed
trace-throttle = Throttle
trace-tiller = Tiller
trace-look = Look
trace-arm = Arm
trace-forks = Forks

## Progress

progress-title = Progress
progress-lead = { $who }: { $count ->
    [0] no attempts yet
    [one] 1 attempt
   *[other] { $count } attempts
}.
progress-none = Nothing driven yet under this name. Each attempt adds a point to the plots here.
progress-course = Exercise
progress-all-courses = all exercises
progress-total = Total
progress-table = All attempts, latest first
progress-when = When
progress-exercise = Exercise
progress-ending = How it ended
progress-shares = How sure each skill is
progress-shares-more = Opportunities without a fault in the last ten drives with something to show, for each truck by itself, as on a class’s board. In brackets: where the true share lies with 95 % certainty; the fewer opportunities and the more faults come in bunches, the wider. Ready is said only after five drives on two days, and when even the lower end is high enough for the site; it means ready for the real truck under supervision, and the trainer decides.
progress-walks = Walk-rounds
progress-walks-more = What was found of what was there, over all these walk-rounds together, practice and daily start apart: where little is ever the matter people overlook more. In brackets: where the true share lies with 95 % certainty, after Wilson.
progress-walks-count = { $count ->
    [one] 1 walk-round
   *[other] { $count } walk-rounds
}
progress-walks-hits = Defects found
progress-walks-grades = Of these, as grave as they are
progress-walks-further = Found after the first
progress-walks-false = Reported without cause
progress-walks-of = { $is } of { $of }
progress-walks-few = How well defects are told from none, and how readily something is reported, is told from { $least } walk-rounds on. Before that it would say nothing.
progress-walks-sound = Nothing was the matter with any of these trucks, so how well defects are told from none cannot be said.
progress-walks-d = Sensitivity, d′
progress-walks-c = Criterion, c
progress-walks-measures = Sensitivity: 0 is guessing, and above 3 hardly anything is mixed up. Criterion: above 0 somebody is slow to report, below 0 quick to. In brackets: the 95 % interval. Both are in standard deviations, with half a trial added to each count (Hautus 1995).
progress-walks-defects = By defect
progress-walks-defect = Defect
progress-walks-found = Found
share-interval = { $share } ({ $low } to { $high })

## Settings

settings-title = Settings
settings-driving = Driving
settings-helps = Helps
settings-helps-more = Show where both ends of the truck will go, how far it takes to stop, and the lane’s edges.
settings-north-up = North stays up
settings-north-up-more = Off: the yard turns with the truck.
settings-tiller-returns = Let go, the tiller comes back to the middle
settings-tiller-returns-more = Off: it stays where it is.
settings-touch = Touch controls
settings-touch-more = A tiller and a throttle for the thumbs, over the yard.
settings-one-finger = One finger is enough
settings-one-finger-more = Tiller and throttle are stepped by buttons; the arm is held until you press “Let go”.
settings-swapped = Thumbs the other way round
settings-swapped-more = The throttle is under your left thumb and the tiller under your right one.
settings-sound = The truck is heard
settings-sound-more = Motor, brake, horns, cones and loads. Everything that sounds is on the screen too.
settings-volume = Volume
keys-title = Keys
keys-lead = Keys are named by what is printed on them here; what counts is their place. An action without a key is switched off.
keys-none = none
keys-add = Add a key
keys-add-for = Add a key: { $action }
keys-press = Press the key …
keys-clear = Clear
keys-clear-for = Clear: { $action }
keys-given = { $key } does this now: { $action }
keys-reset = All keys as they were
pad-title = Gamepad
pad-none = No gamepad is seen. Plug it in and press one of its buttons.
pad-asks = Tiller { $tiller } %, throttle { $twist } %. { $held }
pad-axis = Axis { $n }
pad-button = Button { $n }
pad-dead-zone = Dead zone of the sticks: { $percent } %
pad-tiller = Tiller
pad-twist = Throttle
pad-move-left = Move the stick left …
pad-move-up = Move the stick up …
pad-press = Press the button …
pad-change = Change
pad-change-for = Change: { $action }
pad-reset = Gamepad as it was

## Controls

controls-title = Controls
controls-truck = The truck from above
part-power-unit = Power unit: the end that leads.
part-drive-wheel = Drive wheel: it drives, steers and brakes.
part-tiller = Tiller: it turns the drive wheel. The throttle is in its grip.
part-platform = Platform: you stand on its left or right side.
part-backrest = Backrest: it keeps the load off you.
part-forks = Forks: they trail.
part-load-wheels = Load wheels: they carry, and cannot brake.
controls-arm = The tiller’s arm from the side
arm-part-upper = Upright, where the spring brings it when you let go: brake.
arm-part-driving = Between: driving.
arm-part-lower = Right down, when you sink at the knees with both hands on it: brake.
controls-keyboard = Keyboard
controls-keyboard-lead = The throttle grows while its key is held and is gone when you let go. Against the motion it brakes: that is plugging.
controls-to-settings = Change the keys
controls-gamepad = Gamepad
pad-part-tiller = Left stick: the tiller.
pad-part-twist = Right stick up and down: the throttle.
pad-part-triggers = Triggers: the throttle too, by how far they are pressed.
pad-part-stance = Shoulder buttons: stand on the left, on the right.
pad-part-buttons = Four buttons: below, horn; right, let go of the arm; left, push it down; above, high speed.
pad-part-forks = Cross: forks up and down, look left and right. Right stick pressed: look over the forks. Left stick pressed: step off and on.
pad-part-pause = Right of the two small buttons: pause. Left one: report that something is wrong.
controls-touch = Touch
controls-touch-lead = The tiller appears where your left thumb lands: slide sideways to turn, down to push the arm right down, and lift the thumb to let go of the arm, which brakes. The throttle is in neutral where your right thumb lands: slide up or down to twist it, inwards to sound the horn. Every slide has its button; with one finger, tiller and throttle are stepped. The settings also swap the two sides.

# The walk-round

group-walk-round = Before the first metre
need-step-on = step on
need-key-on = key on
walk-title = Walk-round
walk-loading = The truck is being fetched …
walk-trouble = The walk-round cannot be shown: { $why }
walk-progress = Points answered
walk-answered-of = { $answered } of { $all } answered
walk-ways-label = Sides of the truck, list and sheet
walk-view-above = Above
walk-view-left = Left
walk-view-nose = Nose
walk-view-right = Right
walk-view-tips = Tips
walk-view-platform = Platform
walk-view-desk = Desk
walk-from-above = The truck from above, its nose to the right
walk-from-left = The left side of the truck, its nose to the left
walk-from-nose = The truck from its nose
walk-from-right = The right side of the truck, its nose to the right
walk-from-tips = The truck from the tips of its forks
walk-from-platform = The platform and what is round it
walk-from-desk = The desk: tiller, dial and key
walk-view-open = { $open ->
    [0] no point is open
    [one] one point is open
   *[other] { $open } points are open
}
walk-list = List
walk-list-label = All points
walk-sheet = Sheet
walk-part-outside = Seen from outside
walk-part-desk = Seen at the desk
walk-part-tried = Tried
walk-hint-keys = Arrow keys go from ring to ring, Enter looks closer or tries, 1 to { $most } answer. Page keys go round the truck.
walk-hint-touch = Tap a ring to look closer or to try what is there. The buttons above go round the truck.
walk-named = { $name }: { $state }
walk-open = open
walk-seen-only = looked at, no answer
walk-said-unseen = { $answer }, not looked at
walk-not-from-here = { $state }, not looked at from here
walk-look = Look closer
walk-try = Try it
walk-close = Back to the truck
walk-try-again = Try it again
walk-look-from = Also seen from: { $view }
walk-heard = You hear { $noise }.
walk-heard-horn = a horn
walk-heard-click = a click
walk-heard-buzz = a buzz
walk-heard-hiss = a hiss
walk-heard-squeal = a squeal
walk-heard-nothing = nothing but the hall
walk-settings = Box with two buttons and a dial
walk-settings-asks = A small box beside the key. Two buttons and a dial set how fast the truck drives and brakes.
walk-settings-touched = You press a button, and the dial stands elsewhere now.
walk-answers-label = Your answer
walk-fine = fine
walk-answered-unseen = Answered, but not looked at for long enough.
walk-reason = What is it?
walk-reason-none = choose …
walk-note = Note
walk-note-whole = Note on the whole truck
walk-noted = Note: { $note }
walk-before = Back
walk-next = Next
walk-left = { $left ->
    [one] Noted. One point is still open.
   *[other] Noted. { $left } points are still open.
}
walk-none-left = All points are answered.
walk-to-open = To the next one
walk-sheet-label = Sheet of this truck
walk-shift = Shift
walk-hours = Hours on the meter
walk-hours-bad = Write the hours as the meter shows them, with one decimal.
walk-sheet-kept = All of it is kept with the drive, and stands on the sheet that can be printed afterwards.
walk-decide-label = What becomes of the truck
walk-take = Take the truck
walk-tag-out = Tag out and report
walk-take-sure = Take this truck?
walk-tag-out-sure = Tag this truck out and report it?
walk-unanswered = { $count ->
    [one] One point has no answer: { $names }.
   *[other] { $count } points have no answer: { $names }.
}
walk-unseen = { $count ->
    [one] One point was answered without a long enough look: { $names }.
   *[other] { $count } points were answered without a long enough look: { $names }.
}
walk-and-more = { $names } and { $more } more
walk-no-hours = The hours are not written down.
walk-back = Back to the walk-round

# The class
nav-class = Class
class-title = Class
class-to = To the class
class-join-title = Join the class
class-join-more = Your trainer has the code. From then on what you drive with this browser is sent to the class by itself; what cannot be sent now is sent later.
class-code = Code of the class
class-your-name = Your name
class-join = Join
class-enter-title = For trainers
class-passphrase = Passphrase
class-enter = Open the board
class-leave = Leave the class on this device
class-you-are = You drive as { $name }.
class-all-sent = All that you drove on this device has arrived at the class.
class-waiting = { $count ->
    [one] One drive is on this device only. It is sent as soon as the class can be reached: do not delete it until then.
   *[other] { $count } drives are on this device only. They are sent as soon as the class can be reached: do not delete them until then.
}
class-loading = Asking the class …
class-no-runs = Nothing has arrived yet.
class-older = Show older runs too
class-runs = What has arrived
class-person = Who
class-state = State
class-findings = Faults
class-critical = Critical
class-live = Driving now
class-nobody-drives = Nobody is driving at this moment.
class-at-step = step { $step }
class-faults = { $count ->
    [0] no fault
    [one] one fault
   *[other] { $count } faults
}
class-people = People
class-nobody-yet = Nobody has joined yet.
class-joined = Joined
class-count = Drives
class-delete-more = Deleting somebody deletes their drives, records and pre-tests here. What was saved as a file, printed or handed on cannot be called back.
class-file = The class as a file
class-file-more = One file with all people, their drives and records, and the rules that you handed out: to keep it, or to take it to another computer. What is there already stays as it is.
class-file-save = Save the class
class-file-take = Take a class file in
class-file-taken = { $runs } drives are in the file; { $new } of them were not here yet.
board-title = Who has shown what
board-more = From each person's own last ten drives with something to show. Ready asks for five drives on two days, and for the lower end of the 95 % interval. It is no leave to drive a real truck.
board-last = Last drive
board-lately = { $clean } of { $all } clean, last { $runs } drives, at least { $least }
board-missed = What the class misses
board-missed-by = { $people ->
    [one] one person
   *[other] { $people } people
}, { $times ->
    [one] once
   *[other] { $times } times
}
bring = Fetch the others to this device
bring-told = { $all ->
    [0] In none of the class's drives was this found.
   *[other] Of the class's newest drives, { $all } show it; { $here } of them are on this device.
}
bring-at = Fetching drive { $n } of { $count } and driving it again …
bring-lacks = { $count ->
    [one] One drive
   *[other] { $count } drives
} could not be fetched. { $why }
board-play-all = Watch each of them
class-run-opening = Fetching the drive and driving it again …
class-certifies-nobody = What stands here is what people drove in a simulated yard. It certifies nobody: who may drive a real truck is decided by the employer after supervised practice and an evaluation at the workplace.
run-waiting = waiting to be driven again
run-judged = driven again, came out the same
run-differs = driven again, came out different: it does not count
run-unreadable = cannot be driven again here
host-none = This site has no class. Drives stay in this browser; save them as files and hand those to your trainer.
host-away = The class cannot be reached now ({ $why }).

person-none = Nothing of this person is here.
person-again = What comes back
person-times = { $times ->
    [one] once
   *[other] { $times } times
}
board-save = Save as a table (CSV)
board-trains = Trained by: { $exercises }

# The lesson

lesson-title = The lesson
lesson-to = Teach it: the lesson, for a projector.
lesson-lead = Each topic has what to say, show, ask and have driven, and what to show at the real truck. Arrow keys or a presenter’s remote go from topic to topic.
lesson-loading = The lesson is being fetched …
lesson-trouble = The lesson cannot be shown: { $why }
lesson-no-topic = The lesson has no topic of this name.
lesson-no-scene = What is to be shown here cannot be drawn.
lesson-to-topics = All topics
lesson-begin = Begin with the first topic
lesson-topics = Topics
lesson-topic = Topic
lesson-tick = Covered: { $topic }
lesson-covered = Covered
lesson-covered-of = { $covered } of { $count } topics covered
lesson-place = Topic { $number } of { $count }
lesson-nav = From topic to topic
lesson-back = Back
lesson-say = What to say
lesson-caution = Take care
lesson-show = What to show
lesson-shows = Pictures of this topic
lesson-show-number = Picture { $number }
lesson-ask = Ask aloud
lesson-drive = Then people drive
lesson-at-truck = At the real truck
lesson-right = Right
lesson-wrong = Wrong
lesson-again = From the start
lesson-slow = Half speed
lesson-time = Time in the drives
lesson-horn-on = sounds
lesson-horn-off = silent
lesson-may-run = may run
lesson-must-not-run = must not run
lesson-given = This class
lesson-began = Begun:
lesson-trainer = Trainer
lesson-present = Who is present
lesson-present-more = One name a line.
lesson-present-title = Present
lesson-note = Note
lesson-print = Print the record
lesson-save = Save the record as a file
lesson-end = End this lesson
lesson-where-kept = The record stays in this browser until you save or print it; a class’s host does not get it. The first tick begins it.
lesson-not-kept = The record could not be kept: { $why } Save it as a file.
lesson-unreadable = { $count ->
    [one] One record of a lesson is there but cannot be read.
   *[other] { $count } records of lessons are there but cannot be read.
}
lesson-past = Lessons that were given
lesson-past-counts = { $covered } of { $count } topics, { $present } present
lesson-left-out = Left out
lesson-go-on = Go on with it
lesson-record-title = Record of a lesson
lesson-record-none = There is no record of this lesson in this browser.
lesson-record-caution = It says what was taught in the classroom, not what anybody can do: driving a real truck takes training under supervision and an evaluation at the workplace.

# What people say of their own drive

own-title = First your own word
own-more = How was it? Say so before you see what was found. Whoever notices their own mistakes needs nobody to tell them.
own-people = People and other trucks first
own-looking = Horn, signs, looking
own-stopping = Starting, stopping, speed
own-tidy = Line, forks, load, stance
own-fine = Fine
own-wrong = Something was wrong
own-open = Open the debrief
own-skip = Open it without my word
own-beside-title = Your word and what was found
own-question = About
own-said = You
own-was-found = Found
own-word = So
own-found = { $count ->
    [0] nothing
    [one] one fault
   *[other] { $count } faults
}
own-word-none = you said nothing
own-word-fine = right: it was fine
own-word-noticed = well noticed
own-word-missed = ▲ not noticed
own-word-too-hard = you were harder on yourself than it was
own-progress-title = What you notice yourself
own-progress-more = Of what was found at fault, how much you had said yourself before the debrief opened.
own-progress = { $noticed } of { $faults } noticed; { $hard } of { $fine } times harder on yourself than it was
drive-errors-welcome = Mistakes are welcome here: this is the place to make them.
drive-helps-rest = You have driven this clean, so the helps rest this time. They can be switched on under “More”.

# Notes on moments, and moments of one kind

note-title = Notes
note-meant = What was meant?
note-happened = What happened, and why?
note-next = What next?
note-said = Something else
note-pin = Pin it to { $at }
note-link = Link to this moment
note-full = There are { $most } notes, as many as a drive may have: delete one first.
note-copy = Copy the link to this moment
note-copied = Copied. It opens in the browser that keeps this drive:
note-not-copied = This page may not copy by itself. The link, which opens in the browser that keeps this drive:
asks-fold = Three questions
asks-label = The three questions of a debrief
asks-noted = { $count ->
    [one] one note
   *[other] { $count } notes
}
draw-ring = Draw a ring into the yard
draw-arrow = Draw an arrow into the yard
draw-pad = Drawing into the yard
draw-help-ring = Drag from the middle to the edge. With keys: arrows move it, + and − size it, Enter keeps it, Escape gives it up.
draw-help-arrow = Drag to what it points at. With keys: arrows move it, + and − size it, Page Up and Page Down turn it, Enter keeps it, Escape gives it up.
draw-keep = Keep it
draw-give-up = Give it up
draw-done = Drawn at { $at }: it goes with the note that is pinned next.
draw-pin = Pin it without words
draw-away = Take it away
draw-a-ring = a ring in the yard
draw-an-arrow = an arrow in the yard
tour-play = Play one after another
tour-play-how = Each from some seconds before to some seconds after. The address of the page that opens is a link to all of them. Page Up and Page Down, or a presenter's remote, lead back and on.
tour-label = Moments one after another
tour-place = { $number } of { $count }
tour-back = The moment before
tour-on = The next moment
tour-over = · That was the last one.
two-title = Side by side
two-pick = Another drive of this exercise
two-open = Side by side
two-back = To the replay of the first
two-sync = Together
two-by-place = by place
two-by-time = by time
two-later = On the right { $seconds } s later at this place
two-earlier = On the right { $seconds } s earlier at this place
two-same = Both at this place at the same time
two-never = The drive on the right does not come this far
two-other-course = The two were driven on different exercises.
moments-title = Moments
moments-to = Moments of one kind, to look at together.
moments-lead = Every fault in the drives that are kept in this browser and can be looked at, by kind: each leads to its moment in the replay.
moments-none = Nothing at fault has been found in drives that can be looked at.
moments-count = { $count ->
    [one] once
   *[other] { $count } times
}
moments-all = All kinds

# The class in figures

figures-title = The class in figures
figures-to = The class in figures
figures-of = { $runs ->
    [one] Made of the one drive that has come in and can be driven again.
   *[other] Made of the newest { $runs } drives that have come in and can be driven again.
}
figures-too-few = too few people
figures-looked = Looked before entering
figures-looked-none = Nobody has come to a stop line or a hidden place yet.
figures-looked-mean = { $people ->
    [one] { $share } of stop lines and hidden places, by one person
   *[other] { $share } of stop lines and hidden places, mean of { $people } people
}
figures-looked-more = How often somebody looked to both sides before going over a stop line or into a hidden place, in their last ten drives with one. Of all that was trained in simulators this was found again on real roads, even after half a year; so it stands first.
figures-looked-crossings = { $count ->
    [one] once onto a crossing without looking
   *[other] { $count } times onto a crossing without looking
}
figures-teach = What to teach again
figures-teach-more = What most people have comes first; of equals the graver. The share is of those who drove where it can be made.
figures-teach-of = { $people } of { $of } people ({ $low } to { $high })
figures-teach-run = the drive that shows it
figures-teach-all = Strong people make it as well: teach it to everybody.
figures-teach-weak = Those make it who have trouble with the rest too.
figures-curves = Learning
figures-curves-more = Mean of the points by the number of the attempt, as long as three people are still in it. Who leaves off changes the mean: so the table says what the same people gained.
figures-curves-table = The same as a table
figures-curves-number = Attempt
figures-curves-nth = No. { $number }
figures-curves-gained = Gained
figures-curves-by = { $points } points
figures-shares = People seen together
figures-shares-more = Each share is drawn towards the middle of the class, the more so the less the person has shown. It is for looking at a class; how far somebody is stands on the board, from their own drives alone.
figures-shares-middle = middle { $middle }, people { $apart } apart, { $people } people
figures-items = What the pre-test tells of itself
figures-items-people = { $people ->
    [0] Nobody has driven a whole pre-test yet.
    [one] One person has driven a whole pre-test.
   *[other] { $people } people have driven a whole pre-test; of each the first counts.
}
figures-items-from = Shares have their interval from { $shares } people on; whether the items go together is told from { $alpha } on, and how each goes with the rest from { $rest } on.
figures-items-item = Item
figures-items-right = Right
figures-items-share = Share
figures-items-with = With the rest
figures-items-goes = { $value } ({ $low } to { $high })
figures-items-alike = nobody differs
figures-items-alpha = How the items go together: alpha { $value } ({ $low } to { $high })
figures-items-alpha-none = How the items go together cannot be told: nobody differs.
figures-items-alpha-more = A class that was trained well differs little, and alpha sinks though the test is good.
figures-out = For other programs
figures-out-more = Tables that any spreadsheet opens. What was handed on cannot be called back when somebody is deleted here.
figures-out-attempts = Save the drives (CSV)
figures-out-findings = Save the findings (CSV)
figures-out-statements = Save for a record store (xAPI)
figures-out-told = { $count ->
    [one] One statement was saved.
   *[other] { $count } statements were saved.
} { $left ->
    [0] Nothing is left out.
    [one] One drive is left out: it is not what its file says, or has no time or no name.
   *[other] { $left } drives are left out: they are not what their files say, or have no time or no name.
} Names of people are in it.

# What is due

due-title = What is due
due-more = From the training records, and from when somebody practised last here. Local codes and the employer's rules may ask for more.
due-now = Now
due-later = Later
due-from = from { $day }
due-no-record = no training record
due-never-evaluated = Evaluation at the workplace
due-trained-since = Evaluation after the training
due-three-years = Evaluation after three years
due-half-a-year = Practise again: half a year without (a hint, no rule)
due-unsafe-seen = Refresher: seen driving unsafely
due-near-miss = Refresher: accident or near miss
due-evaluation-unsafe = Refresher: an evaluation that was not passed
due-other-truck = Refresher: another kind of truck
due-workplace-changed = Refresher: the workplace has changed

# The training record

training-title = Training record
training-to = Training record
training-to-person = To the person
training-not-yours = Training records are for the trainer.
training-not-kept = This is not kept yet ({ $why }). It is tried again with the next change; save the record as a file to be sure.
training-here = This record is kept in this browser alone. Save it as a file, or print it, before the browser's data is deleted.
training-at-host = This record is kept with the class, and is in the class file.
training-save = Save the record (JSON)
training-simulation = Judged by version { $version } of the simulation.
training-caution = This record gathers what people wrote. It certifies nobody by itself: the employer certifies, by local codes, after training and an evaluation by competent people.
training-operator = Operator
training-trained = Training
training-evaluated = Evaluation
training-none = none yet
training-day-by = { $day }, { $by }
training-safe = drives safely
training-not-yet = not yet
training-whole = All that 29 CFR 1910.178(l)(6) asks for stands here: the operator, both days, and by whom.
training-lacks = Not there yet of what 29 CFR 1910.178(l)(6) asks for:
training-given = Trainings
training-first = First training
training-refresher = Refresher
training-kind = Kind
training-add = Write down a training
training-on = Day
training-by = Trained by
training-truck = Truck
training-site = Site
training-note = Note
training-keep = Write it down
training-which-day = Say which day it was.
training-by-whom = Say by whom.
lacks-training = a training
lacks-evaluation = an evaluation that ended with “drives safely”
lacks-evaluated-before = an evaluation after the training
lacks-own-word = somebody else's word: nobody trains or evaluates themselves
lacks-yet-to-come = a day that has come: one of them is yet to come
lacks-list = the list “{ $list }” of that evaluation, which is not here
lacks-items = on the sheet of the evaluation: { $items }
seen-sheet-title = At the real truck
seen-sheet-more = Sheets for practice under supervision and for the evaluation at the workplace. One tap for each thing that was seen; every tap is kept.
seen-sheet-practice = Practice
seen-sheet-evaluation = Evaluation
seen-sheet-purpose = What the sheet is for
seen-sheet-open = open
seen-sheet-truck = The truck
seen-sheet-site = The workplace
seen-sheet-must = must be seen
seen-sheet-may = may be seen
seen-sheet-seen = Seen
seen-sheet-seen-ok = Done well
seen-sheet-seen-not-yet = Not yet
seen-sheet-not-seen = Not seen
seen-sheet-all-seen = All that must be seen was done well.
seen-sheet-left = { $count ->
    [one] One thing that must be seen is open.
   *[other] { $count } things that must be seen are open.
}
seen-sheet-decide-safe = Drives safely
seen-sheet-decide-not-yet = Not yet
seen-sheet-add = Begin a sheet
seen-sheet-by = Seen by
seen-sheet-begin = Begin
seen-sheet-there = This sheet is there already: go on with it above.
happened-title = What happened
happened-more = An unsafe act that was seen, an accident or a near miss, another truck, a changed workplace: each asks for a refresher.
happened-add = Write down what happened
happened-cause = What it was
happened-by = Seen by
happened-codes = What was seen
happened-pick = Choose …
happened-unpick = Take off
happened-trains = Trained by

# The rules of this site

rules-title = Rules of this site
rules-lead = Each rule with its limits beside what they usually are. What you change and save holds for drives that begin afterwards on this computer; every drive carries the rules it was driven under.
rules-rest = You drive for a class with this browser: there the rules of the class’s host hold, and the ones you have set rest.
rules-trouble = The rules cannot be shown: { $why }
rules-not-held = The rules that were set on this computer cannot be read ({ $why }). The usual ones hold.
rules-loading = Reading the rules …
rules-own-title = Rules and limits
rules-site = Name of this site
rules-find = Find a rule
rules-only = Only what is not as usual
rules-zones = { $zones ->
    [one] One speed zone of this site’s own came from a file and holds as well.
   *[other] { $zones } speed zones of this site’s own came from a file and hold as well.
}
rules-pretest = Pre-test
rules-points = What faults cost
rules-shared = Shared by several rules
rules-group = { $all } in all, { $changed } not as usual
rules-usual = Usually { $usual }. From { $least } to { $most }.
rules-usual-source = Usually { $usual }. From { $least } to { $most }. Source: { $source }.
rules-no-number = This is no number. Nothing was changed.
rules-outside = Use a number from { $least } to { $most }. Nothing was changed.
rules-changed-mark = not as usual
rules-back = Put back
rules-back-of = Put back: { $name }
rules-back-rule = Put this rule back
rules-back-rule-of = Put this rule back: { $name }
rules-about = Severity: { $severity }. Source: { $source }.
rules-about-graver = Severity: { $severity }, { $graver } beyond the last number. Source: { $source }.
rules-watched = Watched
rules-not-watched = Not watched: finds nothing and counts as no opportunity
rules-watched-of = Watched: { $name }
rules-say = A sentence of your own
rules-say-label = Said beside each finding of this rule
rules-said-elsewhere = In the other language: { $said }
rules-saving = Saving
rules-saved = Saved. { $changed } not as usual.
rules-unsaved = Not saved yet. { $changed } not as usual.
rules-save = Save
rules-undo = Undo
rules-all-back = Put everything back
rules-kept = The rules are saved. They hold from the next drive on.
rules-put-back = The usual rules hold again.
rules-put-back-drives = { $drives ->
    [one] The usual rules hold again. One drive shows its first judgement again.
   *[other] The usual rules hold again. { $drives } drives show their first judgement again.
}
rules-sheets = Sheets for the real truck
rules-sheets-lead = What a trainer looks for at the real truck, in practice and in the evaluation, is a list. Save it, change it for the trucks and the places of this site in any editor, and take it in again. Give a changed list an id of its own: sheets that were begun go by the list of that id.
rules-sheets-shipped = Sheets go by “{ $list }”, which came with the site.
rules-sheets-own = Sheets go by “{ $list }”, which is this site's own.
rules-sheets-in = A list from a file
rules-sheets-out = Save the list
rules-sheets-back = Back to the list that came with the site
hand-out = Rules of the class
hand-out-lead = Who drives for the class drives by these rules from the next drive on, and whatever arrives is judged by them, by whichever rules it was driven.
hand-out-site = The class goes by the rules of the site as it is served.
hand-out-own = The class goes by rules that a trainer handed out.
hand-out-set = Hand the saved rules out to the class
hand-out-back = Back to the rules of the site
rules-files = As a file
rules-files-lead = The file says only what is not as usual. A file that comes in is shown first; it holds when it is saved.
rules-in = Rules from a file
rules-out = Save as a file
rules-came-in = The file is shown above. It holds when you save it.
rules-too-large = The file is too large to be a file of rules.
rules-preview = What would change
rules-preview-lead = Each drive that is kept here is driven again with the same hands and judged by the rules above. Nobody in the yard moves otherwise: people step out where they did. The runs themselves stay as they are.
rules-not-pretest = { $drives ->
    [one] One part of a pre-test is left out: it goes by the rules it was begun under.
   *[other] { $drives } parts of pre-tests are left out: they go by the rules they were begun under.
}
rules-not-old = { $drives ->
    [one] One drive of another version of the simulation cannot be driven again.
   *[other] { $drives } drives of another version of the simulation cannot be driven again.
}
rules-not-what-it-says = { $drives ->
    [one] One run is not what it says it is, and is not judged again.
   *[other] { $drives } runs are not what they say they are, and are not judged again.
}
rules-look = See what would change
rules-stop = Stop
rules-looking = Drive { $n } of { $count }, { $percent } %
rules-looked = { $all } driven again: { $changed } would come out otherwise.
rules-looked-some = Stopped. { $all } driven again: { $changed } would come out otherwise.
rules-look-trouble = It could not go on: { $why }
rules-judge-again = Judge these drives again
rules-first = Show the first judgements again
rules-stale = The rules were changed since. See once more what would change.
rules-save-first = To judge these drives again, save the rules first.
rules-no-drives = No drive is kept here that could be judged again.
rules-judged-again = { $drives ->
    [one] One drive is judged by these rules now. What was said first is kept beside it.
   *[other] { $drives } drives are judged by these rules now. What was said first is kept beside it.
}
rules-first-again = { $drives ->
    [one] One drive shows its first judgement again.
   *[other] { $drives } drives show their first judgement again.
}
rules-would-go-on = Not judged: by these rules the drive would have gone on where it ended.
rules-would-be-otherwise = Not judged: by these rules something else would have happened.
rules-compared = Before and after
rules-col-drive = Drive
rules-col-points = Points
rules-col-faults = Critical, major, minor
rules-col-clean = Clean
rules-col-moved = What moves
rules-then = { $now } before, { $then } after
rules-no-points = none
rules-faults = { $critical }, { $major }, { $minor }
rules-clean = yes
rules-not-clean = no
rules-otherwise = { $name }: another severity
rules-more = { $name }: { $times } more
rules-less = { $name }: { $times } fewer
settings-rules-more = Limits, what is watched, which exercises count, and what a newcomer begins with.
debrief-judged-again = Judged again on { $day } by { $rules }. By the rules it was driven under: { $points }.
debrief-judged-points = { $points } points
debrief-judged-no-points = no points
debrief-judged-site = the rules of { $site }
debrief-judged-unnamed = other rules than those it was driven under

# What the class goes by on this computer

class-set-title = The class on this computer
class-set-lead = Each of these works at once. What does not count can still be driven, and shows no skill in progress and on the board.
class-set-exercises = Exercises that count
class-set-counting = { $counted } of { $all }
class-set-newcomers = Somebody who enters a name that has not driven here begins with:
class-set-as-before = as it was
class-set-host = A class’s host counts every exercise; this is for the drives that are kept in this browser.
