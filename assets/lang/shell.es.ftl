# Las páginas alrededor del lienzo, en español. Un texto por clave; las mismas claves en cada idioma.
# Lo que dice el evaluador, las habilidades y las unidades están en findings.es.ftl.

## Marco

skip-to-content = Ir al contenido
nav-label = Principal
nav-path = Ejercicios
nav-progress = Progreso
nav-controls = Mandos
nav-settings = Ajustes
yard-label = El patio visto desde arriba, con la transpaleta. Su estado se dice con palabras en el tablero.
unknown-title = Esa página no existe
unknown-page = Esta dirección no lleva a ninguna parte de Coneyard.
to-start = Al inicio
to-path = A los ejercicios
delete = Borrar
delete-no = No borrar
delete-sure = Borrar para siempre
run-not-there = Este recorrido no está guardado en este navegador.
store-trouble = No se puede leer lo que se guarda en este navegador ({ $why }). Cierre las demás pestañas de Coneyard y vuelva a cargar esta página.
store-unreadable = { $count ->
    [one] No se puede leer un registro guardado en este navegador. Queda como está.
   *[other] No se pueden leer { $count } registros guardados en este navegador. Quedan como están.
}
store-no-answer = el navegador no ha respondido en 10 segundos
language-trouble = no se pudieron cargar los textos de este idioma: { $why }
said-in-english = el programa lo dice en inglés: «{ $why }»
reader-trouble = No se pudo cargar una parte de este sitio ({ $why }). Revise la conexión e inténtelo otra vez.
store-undone = No se hizo lo que pidió ({ $why }). Inténtelo otra vez.
store-loose = { $count ->
    [one] Un intento no se guarda en este navegador ({ $why }). Dura lo que dure esta página: guárdelo como archivo, o haga sitio e inténtelo otra vez.
   *[other] { $count } intentos no se guardan en este navegador ({ $why }). Duran lo que dure esta página: guárdelos como archivos, o haga sitio e inténtelo otra vez.
}
store-try-again = Intentar guardarlo otra vez
attempt-slowed = Práctica ralentizada, al { $percent } % del tiempo real donde fue más lenta. Nunca cuenta como la mejor ni para la seguridad de una habilidad.
attempt-slowed-short = práctica ralentizada
attempt-forged = Este resultado no cuenta: conducido de nuevo, el recorrido no es lo que dice ser. Abajo se dice en qué difiere.
attempt-forged-short = no cuenta: conducido de nuevo sale otro recorrido
attempt-too-slow = Este equipo solo simuló el { $percent } % del tiempo real: lo conducido así es más fácil que una transpaleta de verdad.
attempt-too-slow-short = equipo demasiado lento
attempt-other-simulation = Este recorrido lo hizo la versión { $made } de la simulación, y aquí está la versión { $here }: los mismos mandos darían ahora otro recorrido. El repaso queda como se evaluó entonces, pero el recorrido ya no se puede volver a conducir, reproducir ni evaluar. Aún se puede guardar como archivo.
attempt-other-simulation-short = no se puede volver a conducir
no-date = sin fecha
caution-short = Práctica de aula. Para conducir una transpaleta real hacen falta formación práctica bajo supervisión y una evaluación en el lugar de trabajo.
made-quickly = Este sitio se construyó deprisa: es más grande y más lento de lo que podría ser. coneyard-workshop build hace el pequeño.
caution-title = Qué es esto y qué no es

## Antes de que haya páginas (web/index.html), y mientras se carga algo

start-no-script = Coneyard necesita JavaScript y WebAssembly. Actívelos para esta dirección.
start-loading = Coneyard se está cargando …
start-on-the-way = Lo que pidió se abre en cuanto esté cargado.
start-late = Coneyard todavía no ha llegado. Con una conexión lenta puede tardar. Si nada cambia, revise la conexión y vuelva a cargar la página, en un navegador actual.
start-old = No se pudo cargar Coneyard: este navegador no puede ejecutarlo, porque es antiguo o tiene WebAssembly desactivado. Use un navegador actual.
start-network = No se pudo cargar Coneyard: una parte no llegó. Revise la conexión y vuelva a cargar la página.
start-error = No se pudo cargar Coneyard: falló al empezar. Vuelva a cargar la página, en un navegador actual; si ocurre otra vez, diga a quien lleva este sitio lo que se lee abajo.
start-again = Volver a cargar la página
loading-bytes = { $got } de { $all } MB
loading-share = Cuánto se ha cargado

## Sin conexión

works-offline = Guardado en este navegador: aquí se puede conducir sin conexión.
newer-ready = Hay una versión más nueva de Coneyard. No se pierde nada de lo que condujo al volver a cargar la página.
newer-take = Cargar la versión más nueva
newer-refused = Todavía hay un recorrido abierto en otra pestaña. Termínelo o déjelo primero.

## Quién y dónde

lang-en = English
lang-es = Español
home-title = Aprenda a conducir la transpaleta con timón
home-lead = Un patio con conos y una transpaleta a la que uno se sube. Conduzca, vea qué salió bien y qué puede mejorar, y conduzca otra vez.
home-drive-now = Conducir ya
home-who-title = Quién conduce
home-private = Sin cuenta y sin correo. Lo que conduzca se queda en este navegador.
home-to-path = Ver todos los ejercicios
who-label = Su nombre, si quiere
who-example = Aliso, Abedul, Cedro …
who-nobody = sin nombre
language-label = Idioma
units-label = Unidades
units-imperial = mph, pulgadas
units-metric = km/h, centímetros

## El camino

path-title = Ejercicios
path-lead = En orden de enseñanza. Nada está cerrado: conduzca lo que quiera, cuantas veces quiera.
group-alone = La transpaleta sola
group-loads = Cargas
group-traffic = Peatones, tráfico y nave
group-whole = El trabajo completo
path-next = Practique ahora este
path-best = Lo mejor hasta ahora
path-last = { $tries ->
    [one] El único intento
   *[other] Último de { $tries } intentos
}
path-points = { $points } puntos, { $word }
path-drive = Conducir
courses-loading = Cargando los ejercicios …
courses-trouble = No se pudieron cargar los ejercicios ({ $why }). Revise la conexión y vuelva a cargar la página.
course-refused = Se dejó fuera un ejercicio: { $why }
truck-single = transpaleta simple
truck-double = transpaleta doble
ending-done = hecho hasta el final
ending-failed = tarea no conseguida
ending-tipped = la transpaleta volcó
ending-struck = alguien fue golpeado
ending-broken-down = la transpaleta se averió
ending-time-out = se acabó el tiempo
ending-broken = interrumpido

cut-off-title = Cortado antes del final
cut-off-lead = No se ha perdido nada. Siga desde donde se cortó, pida que se evalúe tal como está o bórrelo.
cut-off-go-on = Seguir
cut-off-judge = Evaluar tal como está
cut-off-trouble = No se pudo hacer: { $why }

import-title = Archivos guardados
import-label = Recorridos y pruebas previas: elija uno o varios archivos. Se evalúan aquí y se guardan con sus intentos
import-folder = O una carpeta entera
import-judging = { $count ->
    [one] Evaluando el recorrido …
   *[other] Evaluando el archivo { $n } de { $count } …
}
import-summary = Aceptados: { $kept }; ya estaban aquí: { $known }; rechazados: { $refused }.
import-known = (ya estaba aquí)
import-trouble = No se aceptó el archivo: { $why }
import-too-large = { $file }: el archivo tiene { $bytes } bytes; nada de lo que se guarda aquí es tan grande

## Conducir

drive-title = Conducir
drive-loading = Cargando el patio …
drive-ending = Preparando el repaso …
drive-trouble = No se puede seguir. Lo conducido hasta ahora está guardado en Ejercicios. Si se repite, vuelva a cargar la página.
drive-no-such-course = No hay tal ejercicio con esta transpaleta.
drive-not-kept = Este recorrido no está guardado en este navegador.
drive-elsewhere = Este recorrido está abierto en otra pestaña. Siga allí, o cierre esa pestaña y vuelva a cargar esta página.
drive-unreadable = No se puede leer el registro de este recorrido.
drive-other-simulation = Este recorrido se empezó con la versión { $made } de la simulación, y aquí está la versión { $here }: los mismos mandos darían ahora otro recorrido. No se puede seguir ni evaluar; bórrelo y empiece de nuevo.
drive-not-being-kept = Este navegador no guarda el recorrido mientras se conduce ({ $why }). No cierre la página antes del repaso.
drive-too-slow = Este equipo es demasiado lento: el patio va al { $percent } % del tiempo real.
drive-paused = En pausa.
drive-task-label = Tarea
drive-step-of = Paso { $step } de { $steps }
needs-label = Teclas de este paso
need-horn = bocina
need-drive = avanzar
need-drive-back = avanzar, horquillas delante
need-brake = frenar (contramarcha)
need-let-go = soltar el brazo
need-push-down = bajar el brazo del todo
need-look = ojeada
need-look-behind = mirar a las horquillas
need-stand = cambiar de lado
need-forks-up = subir horquillas
need-forks-down = bajar horquillas
need-key = quitar contacto
need-step-off = bajar y subir
need-report = avisar
drive-task-done = Hecho. Bien conducido.
drive-laps-done = { $laps ->
    [one] 1 vuelta hecha.
   *[other] { $laps } vueltas hechas.
}
drive-next-gate = Próxima puerta: { $gate }.
drive-mark-ahead = { $distance } hasta la marca.
drive-mark-behind = { $distance } pasada la marca.
drive-signal-from = La señal llega a partir de { $speed }.
drive-pick-away = { $distance } hasta el próximo puesto.
toward = Faltan { $distance }, { $place }.
toward-ahead = adelante
toward-ahead-left = adelante a la izquierda
toward-left = a la izquierda
toward-behind-left = atrás a la izquierda
toward-behind = atrás
toward-behind-right = atrás a la derecha
toward-right = a la derecha
toward-ahead-right = adelante a la derecha
hint-nose-out = Aún no: el frente (el extremo del motor) sobresale { $distance } del recuadro.
hint-tips-out = Aún no: las puntas de las horquillas sobresalen { $distance } del recuadro.
hint-side-out = Aún no: un costado de la transpaleta sobresale { $distance } del recuadro.
hint-forks-up = Aún no: baje las horquillas hasta el suelo.
hint-throttle = Aún no: deje el acelerador en punto muerto.
hint-key-on = Aún no: gire la llave a apagado.
hint-aboard = Aún no: baje de la plataforma.
hint-short-of-mark = Aún no: faltan { $distance } hasta la marca. Acérquese.
hint-too-far = Aún no: acérquese { $distance } más y después baje.
hint-step-off = Es aquí: baje de la plataforma y vuelva a subir.
hint-step-on = Espere un segundo a pie y vuelva a subir.
dock-vehicle-look = Mire las ruedas del vehículo.
dock-vehicle-fine = Las cuñas están contra las ruedas.
dock-vehicle-wrong = Las cuñas están apartadas de las ruedas.
dock-plate-look = Mire la placa del muelle.
dock-plate-fine = La placa apoya en los dos lados.
dock-plate-wrong = La placa no llega al otro lado.
dock-edge-look = Mire el borde abierto.
dock-edge-fine = Una barra cierra el borde abierto.
dock-edge-wrong = La barra del borde abierto cuelga.
drive-signal-stop = ALTO
drive-signal-let-go = Suelte el brazo
drive-signal-push-down = Baje el brazo del todo
drive-buttons-label = Conducir
drive-pause = Pausa
drive-go-on = Seguir
drive-again = Empezar otra vez
drive-pace = Tiempo
pace-full = normal
pace-half = medio
pace-quarter = cuarto
pace-double = doble
pace-fourfold = cuádruple
drive-helps = Ayudas
drive-step-off = Bajar
drive-step-on = Subir
drive-key-off = Quitar contacto
drive-key-on = Dar contacto
drive-report = Avisar de un fallo
drive-leave = Salir
drive-more = Más
drive-full-screen = Pantalla completa
drive-sound = Sonido
sound-trouble = Este navegador no reproduce sonido. Todo lo que suena se ve también en la pantalla.
drive-self-test = La llave está puesta: la máquina prueba sus luces.
drive-reported = Avisado.
struck-title = Se ha golpeado a una persona.
struck-more = El recorrido termina aquí. Con una transpaleta de verdad: pare, quédese, pida ayuda. Vea cómo ocurrió o empiece otra vez.
struck-part = Esta parte termina aquí. Con una transpaleta de verdad: pare, quédese, pida ayuda.
struck-debrief = Ver cómo ocurrió
struck-on = Seguir
leave-title = ¿Salir de este recorrido?
leave-go-on = Volver a conducir
leave-debrief = Terminar aquí y ver el repaso
leave-later = Guardarlo y seguir más tarde
leave-throw-away = Descartarlo
hint-ahead = mantenga para avanzar
hint-tiller = gire el timón
hint-centre = timón al centro
hint-brake = frene: el acelerador al contrario
hint-stop = en una emergencia: suelte el brazo
hint-touch = Pulgar izquierdo: sujete el timón y deslice para girar. Al levantarlo, frena. Pulgar derecho: deslice hacia arriba para avanzar, al contrario para frenar, hacia dentro para la bocina.
hint-touch-swapped = Pulgar derecho: sujete el timón y deslice para girar. Al levantarlo, frena. Pulgar izquierdo: deslice hacia arriba para avanzar, al contrario para frenar, hacia dentro para la bocina.
hint-one-finger = A la izquierda, el timón paso a paso; a la derecha, el acelerador. «Soltar» frena.
hint-one-finger-swapped = A la izquierda, el acelerador paso a paso; a la derecha, el timón. «Soltar» frena.

## Tablero

dash-label = Tablero
dash-speed = Velocidad
dash-standing = parada
dash-power-unit-first = unidad motriz delante
dash-forks-first = horquillas delante
dash-limit = límite { $limit }
dash-over-limit = ▲ sobre el límite de { $limit }
dash-throttle = Acelerador
dash-tiller = Timón
dash-tiller-middle = en el centro
dash-tiller-left = { $degrees }° a la izquierda
dash-tiller-right = { $degrees }° a la derecha
dash-arm = Brazo
dash-arm-upper = arriba: freno
dash-arm-driving = en marcha
dash-arm-lower = abajo: freno
dash-forks = Horquillas
dash-stance = Posición
dash-stance-left = a la izquierda
dash-stance-right = a la derecha
dash-stance-between = cambiando de lado
dash-stance-off = al lado de la transpaleta
dash-contacts = Manos y pies
dash-contacts-of-four = { $count } de 4 en su sitio
dash-look = Mirada
dash-look-ahead = al frente
dash-look-left = a la izquierda
dash-look-right = a la derecha
dash-look-behind = a las horquillas
dash-load = Carga
dash-load-none = ninguna
dash-load-kg = { $pallets ->
    [one] 1 palé, { $mass } kg; la contramarcha frena como mucho { $plugging } m/s²
   *[other] { $pallets } palés, { $mass } kg; la contramarcha frena como mucho { $plugging } m/s²
}
dash-load-lb = { $pallets ->
    [one] 1 palé, { $mass } lb; la contramarcha frena como mucho { $plugging } ft/s²
   *[other] { $pallets } palés, { $mass } lb; la contramarcha frena como mucho { $plugging } ft/s²
}
dash-states = Ahora
dash-braking = Freno
dash-plugging = Contramarcha
dash-slipping = Patina
dash-high-speed = Rápida
dash-horn = Bocina
dash-stepping = Cambia de lado
dash-off-platform = Fuera de la plataforma
dash-key-off = Contacto quitado
dash-too-heavy = Carga sobre la capacidad

## Dispositivos

key-space = Espacio
key-shift = Mayús
action-ahead = Acelerador, unidad motriz delante
action-back = Acelerador, horquillas delante; contra el movimiento: frena a contramarcha
action-tiller-left = Timón a la izquierda
action-tiller-right = Timón a la derecha
action-centre = Timón al centro
action-let-go = Soltar el brazo
action-push-down = Bajar el brazo del todo
action-stand-left = Ponerse a la izquierda
action-stand-right = Ponerse a la derecha
action-forks-up = Subir las horquillas
action-forks-down = Bajar las horquillas
action-horn = Bocina
action-high-speed = Botón de velocidad rápida
action-twist-25 = Girar la muñeca un cuarto
action-twist-50 = Girar la muñeca la mitad
action-twist-75 = Girar la muñeca tres cuartos
action-twist-100 = Girar la muñeca del todo
action-twist-at-once = Girar de golpe, mientras se mantiene
action-look-left = Mirar a la izquierda: una ojeada, o mientras se mantiene
action-look-right = Mirar a la derecha: una ojeada, o mientras se mantiene
action-look-behind = Mirar a las horquillas: una ojeada, o mientras se mantiene
action-step-off = Bajar de la plataforma y volver a subir
action-key = Quitar el contacto y volver a darlo
action-report = Avisar de que aquí algo está mal
action-pause = Pausa y seguir
action-sound = Sonido, encender y apagar
action-overview = Vista de todo el patio
action-zoom-in = Acercar
action-zoom-out = Alejar
touch-label = Mandos táctiles
touch-tiller = Timón
touch-tiller-steps = Timón, paso a paso
touch-twist = Acelerador
touch-twist-steps = Acelerador, paso a paso
touch-ahead = avance
touch-back = horquillas
touch-neutral = Acelerador en punto muerto
touch-let-go = Soltar
touch-push-down = Bajar
touch-horn = Bocina
touch-forks-up = Horquillas arriba
touch-forks-down = Horquillas abajo
touch-look-left = Mirar izquierda
touch-look-behind = Mirar horquillas
touch-look-right = Mirar derecha
touch-high-speed = Rápida
touch-stand-left = Lado izquierdo
touch-stand-right = Lado derecho

## La prueba previa

pretest-title = Prueba previa
pretest-to = A la prueba previa
pretest-to-whole = A la prueba previa de la que es parte
pretest-lead = Una sola sesión sobre todo lo practicado. Le muestra a usted y a su instructor dónde está antes de la práctica supervisada con una transpaleta real.
pretest-what = Qué es
pretest-how = Son unos { $minutes } minutos de conducción, en { $parts } partes, una tras otra.
pretest-once = Cada parte se conduce una vez. Pase lo que pase, cuenta, y viene la siguiente. Una parte a la que se le acaba el tiempo también queda hecha, y no aprobada.
pretest-no-helps = Sin ayudas: ni trayectoria prevista, ni distancia de frenado, ni tiempo más lento.
pretest-pauses = { $pauses ->
    [one] Hay una pausa para toda la sesión. Entre dos partes puede descansar sin gastarla.
   *[other] Hay { $pauses } pausas para toda la sesión. Entre dos partes puede descansar sin gastarlas.
}
pretest-passes = Se supera con al menos { $total } de 100 puntos en total y al menos { $skill } en cada habilidad, cada parte llevada hasta el final y ninguna observación crítica.
pretest-cut-off = Si el navegador se cierra, no se pierde nada: siga donde se quedó.
pretest-slow = El equipo debe seguir el tiempo real, al menos al { $percent } %. Una parte conducida en uno más lento deja el resultado abierto.
pretest-handed-out = La clase reparte lo que usted conduce; difiere de lo de su vecino en lados y tiempos, no en dificultad.
pretest-quickness-unknown = En este equipo aún no se terminó ninguna conducción. Haga antes un ejercicio en él: así se ve si es lo bastante rápido.
pretest-quickness-good = Este equipo siguió el tiempo real en la última conducción ({ $percent } %).
pretest-quickness-low = Este equipo fue demasiado lento en la última conducción: { $percent } % del tiempo real. Cierre otros programas o use otro equipo y repita un ejercicio antes de empezar.
pretest-certifies-nobody = La prueba previa no certifica a nadie. Su instructor decide lo que sigue.
pretest-parts = Las partes
pretest-start-title = Empezar
pretest-class-word = Palabra de la clase
pretest-class-word-more = Su instructor le dice las dos cosas. De ellas depende por qué lado se conduce cada parte, para que los vecinos conduzcan lo mismo al revés.
pretest-seat = Número de su puesto
pretest-start = Empezar la prueba previa
pretest-word-wrong = Escriba la palabra de su clase: de 1 a 40 letras o cifras.
pretest-seat-wrong = Escriba el número de su puesto: de 0 a 9999.
pretest-not-kept = Este navegador no guarda lo que conduce ({ $why }). No cierre la página antes de guardar la prueba previa en un archivo.
pretest-not-there = Esta prueba previa no está guardada en este navegador.
pretest-other-simulation = Lo conducido de esta prueba previa se condujo con la versión { $made } de la simulación, y aquí está la versión { $here }. No se puede unir con lo que se conduciría ahora, así que la prueba no puede seguir: abandónela y empiece otra.
pretest-open-title = Hay una prueba previa en marcha
pretest-open-lead = No se perdió nada. Sigue donde se quedó.
pretest-go-on = Seguir con la prueba previa
pretest-past-title = Pruebas previas hechas
pretest-class-seat = clase { $class }, puesto { $seat }
pretest-so-far = { $driven } de { $parts } partes conducidas
pretest-part-of = Prueba previa, parte { $part } de { $parts }
pretest-first-part = Empezar con la parte 1
pretest-next-part = Parte siguiente: { $part }
pretest-part-on = Seguir con la parte { $part }
pretest-part-driven = conducida: { $ending }
pretest-part-out-of-time = se acabó el tiempo: hecha y no aprobada, con lo que se mostró hasta entonces
pretest-part-cut = interrumpida: sigue donde se quedó
pretest-part-due = es la siguiente
pretest-part-left = falta
pretest-part-not-driven = Sin conducir.
pretest-part-too-slow = el tiempo pasó demasiado despacio: { $percent } % del tiempo real
pretest-pauses-left = { $pauses ->
    [0] La pausa ya está gastada.
    [one] Queda una pausa.
   *[other] Quedan { $pauses } pausas.
}
pretest-stop-between = Entre dos partes puede descansar cuanto quiera.
pretest-stop = Parar o guardar
pretest-save-more = Para seguir más tarde basta con cerrar la página. El archivo contiene lo conducido hasta ahora.
pretest-save = Guardar la prueba previa en un archivo
pretest-save-trouble = No se pudo guardar la prueba previa: { $why }
pretest-give-up = Abandonar la prueba previa
pretest-give-up-sure = ¿Abandonarla? Las partes conducidas se quedan. Lo conducido de una parte en marcha se borra, y la prueba previa no puede seguir.
pretest-give-up-no = No, seguir
pretest-give-up-yes = Sí, abandonarla
pretest-was-given-up = Se abandonó antes de la última parte.
pretest-no-pause-left = No queda pausa
pretest-paused = Esta es la única pausa de la prueba previa.
pretest-held = Detenido porque se dejó la página. No cuenta como la pausa.
pretest-too-slow = Una parte conducida así deja abierto el resultado de la prueba previa.
pretest-part-ending = Se está guardando la parte …
pretest-elsewhere = Esta parte se está conduciendo en otra pestaña. Siga allí, o cierre esa pestaña y vuelva a cargar esta página.
pretest-leave = ¿Dejar la prueba previa?
pretest-leave-held = El patio está detenido mientras tanto: esa fue la única pausa.
pretest-leave-not-held = La pausa ya está gastada, así que el patio sigue mientras tanto.
pretest-leave-end = Terminar aquí esta parte; cuenta como interrumpida
pretest-result-trouble = No se puede calcular el resultado: { $why }
pretest-begun = Empezada
pretest-duration = Tiempo conducido
pretest-parts-driven = Partes conducidas
pretest-pauses-taken = Pausas
pretest-not-shown = Sin demostrar hasta ahora: { $skills }.
pretest-missing = Faltan { $parts } partes por conducir.
pretest-other-way = { $title }, al revés
pretest-differs = Conducidas otra vez con los mandos grabados, estas partes salen distintas: { $parts }. Este resultado no cuenta.
pretest-good-deeds = { $count ->
    [0] nada destacó
    [one] 1 acierto
   *[other] { $count } aciertos
}
pretest-part-debrief = Repaso de esta parte

## El repaso

debrief-title = Repaso
debrief-loading = Buscando el repaso …
debrief-total = Resultado
debrief-of-hundred = de 100 puntos
debrief-skills = Por habilidad
debrief-clean-of = { $clean } de { $opportunities } sin falta
debrief-good = Lo que salió bien
debrief-no-good = Nada destacó todavía. Una parada limpia en la línea, la bocina a tiempo o un arranque suave aparecerán aquí.
debrief-faults = Lo que puede mejorar
debrief-no-faults = No se vio ninguna falta.
debrief-measured = Medido { $measured }, límite { $limit }
debrief-measured-least = Medido { $measured }, se pide al menos { $limit }
debrief-measured-alone = Medido { $measured }
debrief-times = { $times } veces
debrief-rule = Regla: { $rule }.
debrief-look = Verlo ({ $at })
debrief-deed = { $times ->
    [one] { $title }
    [2] { $title }, dos veces
    [3] { $title }, tres veces
    [4] { $title }, cuatro veces
    [5] { $title }, cinco veces
   *[other] { $title }, { $times } veces
}
debrief-took = { $times ->
    [one] { $title } ({ $severity })
   *[other] { $title }, { $times } veces ({ $severity })
}
debrief-worst = Lo primero
debrief-other-faults = También puede mejorar
debrief-plan-key = Qué muestra el plano
debrief-plan-trouble = En el plano falta el recorrido: { $why }
debrief-again-not-done = No se condujo hasta el final de modo que cuente: condúzcalo otra vez.
debrief-again-practise = Lo que más falta practicar: { $skill }. Este ejercicio lo pide: condúzcalo otra vez.
debrief-enough = Basta para seguir; lo de abajo aún puede mejorar.
debrief-practise-skill = Lo que más falta practicar: { $skill }.
debrief-nothing-at-fault = Nada que corregir: siga por el camino.
debrief-drive-next = Conducir «{ $title }»
debrief-not-shown = No demostrado en este ejercicio: { $skills }.
debrief-does-not-count = { $ending }. Estos puntos son de la parte conducida; no cuentan como resultado.
debrief-in-part = { $ending }. Está hecho el { $percent } % del ejercicio, y tiene esa parte de los puntos que muestra lo conducido. No cuentan como resultado.
debrief-replay = Repetición
debrief-again = Conducirlo otra vez
debrief-export = Guardar el recorrido en un archivo
debrief-print = Imprimir
export-trouble = No se pudo guardar el recorrido: { $why }
verdict-title = ¿Es el recorrido lo que dice ser?
verdict-reproduces = Sí: conducido de nuevo con los mandos grabados, todo salió igual.
verdict-differs = No: conducido de nuevo, la primera diferencia está en el segundo { $second }. Este resultado no cuenta.
verdict-debrief-differs = No: el recorrido sale igual, pero no el repaso que traía. Se muestra el calculado y este resultado no cuenta.
verdict-digest = Último resumen { $digest }
points-well = bien demostrado
points-enough = suficiente
points-practise = falta práctica
points-not-shown = no demostrado

## Repaso de una inspección

round-practice = Práctica
round-daily = Comienzo del día
round-fine = bien
round-no-answer = sin respuesta
round-hours = { $hours } h
round-view-above = desde arriba
round-view-left = desde la izquierda
round-view-right = desde la derecha
round-view-nose = desde el extremo de la unidad motriz
round-view-tips = desde las puntas de las horquillas
round-view-platform = junto a la plataforma
round-view-desk = en el timón
round-shows-tried = Solo al probarlo
round-shows-glance = A simple vista ({ $views })
round-shows-one-side = Al mirar de cerca, y solo desde un lado ({ $views })
round-shows-closer = Al mirar de cerca ({ $views })
round-hits = Encontrado: { $is } de { $of }
round-grades = Con la gravedad que tiene: { $is } de { $of }
round-further = Encontrado después del primero: { $is } de { $of }
round-false = Avisos sin motivo: { $is } de { $of } puntos
round-left-out = { $count ->
    [one] 1 punto sin respuesta
   *[other] { $count } puntos sin respuesta
}
debrief-walk = La inspección
debrief-walk-sheet = La hoja del día
debrief-walk-tagged = Marcada fuera de servicio, y no debe circular.
debrief-walk-tagged-sound = Marcada fuera de servicio, aunque puede circular.
debrief-walk-took-bad = Tomada, aunque no debe circular.
debrief-walk-took-worn = Tomada: puede circular, con lo que tiene en la hoja.
debrief-walk-took-sound = Tomada, y no le pasaba nada.
debrief-walk-open = Ni tomada ni marcada fuera de servicio.
debrief-walk-took = Duró
debrief-walk-no-score = El tiempo no da ni quita puntos.
debrief-walk-hours-right = El horómetro se anotó bien: { $hours }.
debrief-walk-hours-wrong = Anotado del horómetro: { $read }. Marcaba { $is }.
debrief-walk-hours-none = El horómetro no se anotó. Marcaba { $is }.
debrief-walk-matter = Lo que le pasaba
debrief-walk-nothing = Nada: todos los puntos de esta máquina estaban bien.
debrief-walk-no-drawings = Faltan los dibujos: { $why }
debrief-walk-found = encontrado
debrief-walk-too-mild = encontrado, tomado a la ligera
debrief-walk-too-grave = encontrado, tomado por más grave
debrief-walk-said-fine = se le pasó: contestó que estaba bien
debrief-walk-not-answered = se le pasó: sin respuesta
debrief-walk-sound = En buen estado:
debrief-walk-here = Esta máquina:
debrief-walk-here-tried = Esta máquina, al probarlo:
debrief-walk-shows = Dónde se ve
debrief-walk-answer = Su respuesta
debrief-walk-right = La correcta
debrief-walk-why = Por qué
debrief-walk-made-up = Avisó, y no pasaba nada
debrief-walk-left-out = Sin respuesta
debrief-next-truck = Otra máquina

## Hoja de una inspección

sheet-title = Inspección antes del turno
sheet-none = Esta práctica no tiene inspección, así que no tiene hoja.
sheet-shift = Turno
sheet-hours = Horómetro, leído
sheet-by = Inspeccionada por
sheet-list = Lista
sheet-point = Punto
sheet-answer = Respuesta
sheet-reason = Motivo
sheet-note = Nota
sheet-outside = Por fuera
sheet-desk = En el timón
sheet-tried = Al probar
sheet-decision = Decisión
sheet-taken = máquina tomada
sheet-tagged = máquina marcada fuera de servicio, con aviso
sheet-undecided = ninguna
sheet-signed-by = Inspeccionada por, firma
sheet-received-by = Recibida por
sheet-caution = Esta hoja es de una máquina de práctica en una simulación y no dice nada de ninguna real. En el trabajo valen primero la hoja del propio centro, las reglas de la empresa y el manual del fabricante, y deciden personas competentes.

## El repaso en papel

print-title = Repaso de una práctica
paper-label = Papel
paper-a4 = A4
paper-letter = Carta
print-now = Imprimir
print-working = Dibujando el recorrido …
print-trouble = Falta algo en esta página: { $why } Lo demás se puede imprimir.
print-page-of = Página { $page } de { $pages }
print-trainee = Aprendiz
print-trainer = Instructor
print-date = Fecha
print-signatures = Para firmar
print-exercise = Ejercicio
print-truck = Transpaleta
print-started = Fecha y hora
print-duration = Duración
print-length = { $minutes ->
    [0] { $seconds } s
   *[other] { $minutes } min { $seconds } s
}
print-rules = Reglas
print-rules-shipped = las de partida, sin cambios
print-rules-unnamed = reglas sin nombre, distintas de las de partida
print-rules-changed = Cambios respecto a las reglas de partida
print-plan = Plano del recorrido
print-plan-label = { $count ->
    [0] El recorrido desde arriba.
    [one] El recorrido desde arriba con 1 observación por su número.
   *[other] El recorrido desde arriba con { $count } observaciones por su número.
}
print-north = N
print-skill = Habilidad
print-points = Puntos
print-word = Resultado
print-opportunities = Sin falta
print-share = Proporción, y dónde está la verdadera
print-share-more = Entre paréntesis: el intervalo del 95 % según Wilson. Cuantas menos ocasiones, más ancho es.
print-all-points = Donde una habilidad tiene 0 puntos, una observación crítica o muchas faltas se los llevaron todos, por muchas veces que saliera bien.
print-clean-of = { $clean } de { $opportunities }
print-no-good = Nada destacó en esta práctica.
print-practise = Qué practicar
plan-way = recorrido
plan-lane = carril
plan-wet = suelo mojado
plan-dusty = suelo con polvo
plan-plate = placa de muelle
plan-ramp = rampa
plan-dock = muelle
plan-crossing = paso de peatones
plan-zone = zona de velocidad
plan-bay = plaza para palés
plan-box = recuadro donde parar
plan-gate = puerta
plan-paint = línea pintada
plan-trigger = línea que prepara una señal
plan-yield = línea de ceda el paso
plan-mark = marca donde parar
plan-stop = línea de alto
plan-overhead = viga o cortina
plan-rail = barandilla o panel
plan-rack = estantería o carga
plan-wall = pared
plan-cone = cono

## Valores de las reglas

rule-changed = { $name } { $here } en vez de { $usual }
rule-none = ninguno
rule-on = sí
rule-off = no
limit-on = se vigila:
limit-severity = gravedad
limit-skill = habilidad
limit-graver = más grave:
limit-graver-above = más grave por encima de
limit-graver-below = más grave por debajo de
limit-value = valor
limit-speed-limit = límite de velocidad del centro
limit-minor = puntos por falta leve
limit-major = puntos por falta grave
limit-most-by-one-code = puntos como máximo por una misma falta
limit-pass-skill = puntos exigidos en cada habilidad
limit-pass-total = puntos exigidos en total
limit-after = después de
limit-again-every = cuenta otra vez cada
limit-at-a-line = parado ante una línea
limit-away = distancia a la transpaleta
limit-before = antes
limit-closest = crítico por debajo de una distancia de
limit-closing = velocidad de acercamiento
limit-closing-speed = velocidad de acercamiento
limit-creep = velocidad muy lenta
limit-distance = distancia
limit-effort = esfuerzo
limit-excess = permitido sobre el límite
limit-fast = rápido es más de
limit-for = durante
limit-forks = altura de las horquillas
limit-from = desde
limit-from-mark = distancia a la marca
limit-gap = separación
limit-gap-fast = separación si va rápido
limit-glance = duración de la mirada
limit-grace = tiempo para empezar a frenar
limit-grade = pendiente
limit-habit = velocidad cuando es costumbre
limit-hand = mano más rápida
limit-height = altura
limit-held = sostenida
limit-hidden = desde un lugar sin visibilidad
limit-jerk = brusquedad
limit-lately = en los últimos
limit-load-closing-speed = velocidad de acercamiento con la carga
limit-look = ángulo de la mirada
limit-moved = se movió
limit-near = cerca es a menos de
limit-normal-again = otra vez normal tras
limit-of-load = parte del límite con carga
limit-off = desviación
limit-off-path = ángulo fuera del camino
limit-over = en un tiempo de
limit-own-speed = velocidad propia
limit-ran-back = retroceso
limit-reaction = tiempo de reacción
limit-rise = subida
limit-settle = tiempo de asentarse
limit-share = parte del tiempo
limit-side-acceleration = aceleración lateral
limit-slide = deslizamiento
limit-sliding = velocidad al rozar
limit-slowing = frenada necesaria
limit-slowing-hard = frenada fuerte necesaria
limit-speed = velocidad
limit-spill-within = caída de la carga antes de
limit-steer = ángulo de giro
limit-stood = quieto durante
limit-stood-within = parado a menos de
limit-struck-within = golpe antes de
limit-then-over = luego a no más de
limit-throttle = acelerador
limit-time = tiempo
limit-times = veces
limit-together = se cuenta junto dentro de
limit-turned = giro
limit-until = hasta
limit-up-to-speed = hasta una velocidad de
limit-watch = se observa durante
limit-within = dentro de

## Repetición

replay-title = Repetición
replay-loading = Abriendo el recorrido …
replay-trouble = No se puede mostrar el recorrido.
replay-to-debrief = Al repaso
replay-play = Reproducir
replay-pause = Pausa
replay-finding-before = A la observación anterior
replay-finding-after = A la observación siguiente
replay-tick-back = Un instante atrás
replay-tick-on = Un instante adelante
replay-pace = Tiempo
replay-everything = Mostrar todo
replay-full-screen = Pantalla completa
replay-findings = Observaciones
companion-title = Conducir al lado
companion-nobody = nadie
companion-best = su mejor intento
companion-model = recorrido modelo
companion-working = Preparando el segundo recorrido …
companion-trouble = No se pudo mostrar el segundo recorrido: { $why }
timeline-label = Línea de tiempo
timeline-marks = Observaciones en la línea de tiempo
timeline-mark = { $title }, en { $at }
timeline-place = Lugar en el recorrido
timeline-at = { $at } de { $length }
trace-speed = Velocidad
trace-throttle = Acelerador
trace-tiller = Timón
trace-look = Mirada
trace-arm = Brazo
trace-forks = Horquillas

## Progreso

progress-title = Progreso
progress-lead = { $who }: { $count ->
    [0] ningún intento todavía
    [one] 1 intento
   *[other] { $count } intentos
}.
progress-none = Todavía no hay nada conducido con este nombre. Cada intento añade un punto a las gráficas.
progress-course = Ejercicio
progress-all-courses = todos los ejercicios
progress-total = Total
progress-table = Todos los intentos, primero el último
progress-when = Cuándo
progress-exercise = Ejercicio
progress-ending = Cómo terminó
progress-shares = Cuánta certeza hay en cada habilidad
progress-shares-more = Ocasiones sin falta en los últimos diez recorridos con algo que mostrar, para cada transpaleta por separado, como en el tablero de la clase. Entre paréntesis: dónde está la proporción verdadera con un 95 % de certeza; cuantas menos ocasiones y cuanto más juntas vienen las faltas, más ancho. Solo se dice «Preparación suficiente» después de cinco recorridos en dos días, y si incluso el extremo inferior basta para el centro; significa preparado para la máquina real con supervisión, y decide el instructor.
progress-walks = Inspecciones
progress-walks-more = Lo que se encontró de lo que había, en todas estas inspecciones juntas, la práctica y el comienzo del día por separado: donde pocas veces pasa algo, la gente pasa más por alto. Entre paréntesis: dónde está la proporción verdadera con un 95 % de certeza, según Wilson.
progress-walks-count = { $count ->
    [one] 1 inspección
   *[other] { $count } inspecciones
}
progress-walks-hits = Defectos encontrados
progress-walks-grades = De ellos, con la gravedad que tienen
progress-walks-further = Encontrados después del primero
progress-walks-false = Avisos sin motivo
progress-walks-of = { $is } de { $of }
progress-walks-few = Qué bien se distingue un defecto de lo que está bien, y con qué facilidad se avisa, se dice a partir de { $least } inspecciones. Antes no diría nada.
progress-walks-sound = A ninguna de estas máquinas le pasaba nada, así que no se puede decir qué bien se distingue un defecto.
progress-walks-d = Sensibilidad, d′
progress-walks-c = Criterio, c
progress-walks-measures = Sensibilidad: 0 es adivinar, y por encima de 3 casi nada se confunde. Criterio: por encima de 0 cuesta avisar, por debajo de 0 se avisa pronto. Entre paréntesis: el intervalo del 95 %. Los dos se dan en desviaciones estándar, con medio ensayo sumado a cada cuenta (Hautus 1995).
progress-walks-defects = Por defecto
progress-walks-defect = Defecto
progress-walks-found = Encontrado
share-interval = { $share } ({ $low } a { $high })

## Ajustes

settings-title = Ajustes
settings-driving = Conducir
settings-helps = Ayudas
settings-helps-more = Muestran por dónde irán los dos extremos, cuánto hace falta para parar y los bordes del carril.
settings-north-up = El norte queda arriba
settings-north-up-more = Sin esto, el patio gira con la transpaleta.
settings-tiller-returns = Al soltarlo, el timón vuelve al centro
settings-tiller-returns-more = Sin esto, se queda donde está.
settings-touch = Mandos táctiles
settings-touch-more = Un timón y un acelerador para los pulgares, sobre el patio.
settings-one-finger = Basta un dedo
settings-one-finger-more = Timón y acelerador van paso a paso con botones; el brazo se sujeta hasta pulsar «Soltar».
settings-swapped = Pulgares al revés
settings-swapped-more = El acelerador queda bajo el pulgar izquierdo y el timón bajo el derecho.
settings-sound = Se oye la transpaleta
settings-sound-more = Motor, freno, bocinas, conos y cargas. Todo lo que suena se ve también en la pantalla.
settings-volume = Volumen
keys-title = Teclas
keys-lead = Las teclas se nombran por lo que llevan impreso; lo que cuenta es su lugar. Una acción sin tecla queda desactivada.
keys-none = ninguna
keys-add = Añadir tecla
keys-add-for = Añadir tecla: { $action }
keys-press = Pulse la tecla …
keys-clear = Quitar
keys-clear-for = Quitar: { $action }
keys-given = { $key } hace ahora esto: { $action }
keys-reset = Todas las teclas como estaban
pad-title = Mando de juego
pad-none = No se ve ningún mando. Conéctelo y pulse uno de sus botones.
pad-asks = Timón { $tiller } %, acelerador { $twist } %. { $held }
pad-axis = Eje { $n }
pad-button = Botón { $n }
pad-dead-zone = Zona muerta de las palancas: { $percent } %
pad-tiller = Timón
pad-twist = Acelerador
pad-move-left = Mueva la palanca a la izquierda …
pad-move-up = Mueva la palanca hacia arriba …
pad-press = Pulse el botón …
pad-change = Cambiar
pad-change-for = Cambiar: { $action }
pad-reset = Mando como estaba

## Mandos

controls-title = Mandos
controls-truck = La transpaleta desde arriba
part-power-unit = Unidad motriz: el extremo que va delante.
part-drive-wheel = Rueda motriz: impulsa, dirige y frena.
part-tiller = Timón: gira la rueda motriz. El acelerador está en su empuñadura.
part-platform = Plataforma: usted va en su lado izquierdo o derecho.
part-backrest = Respaldo: mantiene la carga lejos de usted.
part-forks = Horquillas: van detrás.
part-load-wheels = Ruedas de carga: llevan el peso y no frenan.
controls-arm = El brazo del timón, de lado
arm-part-upper = Arriba, adonde lo lleva el muelle al soltarlo: freno.
arm-part-driving = En medio: marcha.
arm-part-lower = Abajo del todo, al doblar las rodillas con las dos manos en él: freno.
controls-keyboard = Teclado
controls-keyboard-lead = El acelerador crece mientras se mantiene su tecla y desaparece al soltarla. Contra el movimiento frena: es la contramarcha.
controls-to-settings = Cambiar las teclas
controls-gamepad = Mando de juego
pad-part-tiller = Palanca izquierda: el timón.
pad-part-twist = Palanca derecha arriba y abajo: el acelerador.
pad-part-triggers = Gatillos: también el acelerador, según cuánto se aprieten.
pad-part-stance = Botones superiores: ponerse a la izquierda, a la derecha.
pad-part-buttons = Cuatro botones: abajo, bocina; derecha, soltar el brazo; izquierda, bajarlo; arriba, velocidad rápida.
pad-part-forks = Cruz: horquillas arriba y abajo, mirar a izquierda y derecha. Palanca derecha apretada: mirar a las horquillas. Palanca izquierda apretada: bajar y subir.
pad-part-pause = El derecho de los dos botones pequeños: pausa. El izquierdo: avisar de que algo está mal.
controls-touch = Pantalla táctil
controls-touch-lead = El timón aparece donde se apoya el pulgar izquierdo: deslice a los lados para girar, hacia abajo para bajar el brazo del todo, y levante el pulgar para soltar el brazo, que frena. El acelerador está en punto muerto donde se apoya el pulgar derecho: deslice hacia arriba o abajo para girarlo, hacia dentro para la bocina. Cada gesto tiene su botón; con un solo dedo, timón y acelerador van paso a paso. En los ajustes también se intercambian los dos lados.

# La inspección

group-walk-round = Antes del primer metro
need-step-on = subir
need-key-on = poner la llave
walk-title = Inspección
walk-loading = Se está trayendo la máquina …
walk-trouble = No se puede mostrar la inspección: { $why }
walk-progress = Puntos contestados
walk-answered-of = { $answered } de { $all } contestados
walk-ways-label = Lados de la máquina, lista y hoja
walk-view-above = Arriba
walk-view-left = Izquierda
walk-view-nose = Frente
walk-view-right = Derecha
walk-view-tips = Puntas
walk-view-platform = Plataforma
walk-view-desk = Mandos
walk-from-above = La máquina desde arriba, con el frente a la derecha
walk-from-left = El lado izquierdo de la máquina, con el frente a la izquierda
walk-from-nose = La máquina desde su frente
walk-from-right = El lado derecho de la máquina, con el frente a la derecha
walk-from-tips = La máquina desde las puntas de sus horquillas
walk-from-platform = La plataforma y lo que hay alrededor
walk-from-desk = Los mandos: timón, indicador y llave
walk-view-open = { $open ->
    [0] no queda ningún punto
    [one] queda un punto
   *[other] quedan { $open } puntos
}
walk-list = Lista
walk-list-label = Todos los puntos
walk-sheet = Hoja
walk-part-outside = Por fuera
walk-part-desk = En los mandos
walk-part-tried = Probando
walk-hint-keys = Las flechas van de anillo en anillo, Intro mira de cerca o prueba, 1 a { $most } contestan. Av Pág y Re Pág dan la vuelta.
walk-hint-touch = Toque un anillo para mirar de cerca o probar lo que hay ahí. Los botones de arriba dan la vuelta a la máquina.
walk-named = { $name }: { $state }
walk-open = pendiente
walk-seen-only = mirado, sin respuesta
walk-said-unseen = { $answer }, sin mirar
walk-not-from-here = { $state }, sin mirar desde aquí
walk-look = Mirar de cerca
walk-try = Probar
walk-close = Volver a la máquina
walk-try-again = Probar otra vez
walk-look-from = También se ve desde: { $view }
walk-heard = Se oye { $noise }.
walk-heard-horn = una bocina
walk-heard-click = un clic
walk-heard-buzz = un zumbido
walk-heard-hiss = un siseo
walk-heard-squeal = un chirrido
walk-heard-nothing = solo la nave
walk-settings = Caja con dos botones y un dial
walk-settings-asks = Una caja pequeña junto a la llave. Dos botones y un dial ajustan a qué velocidad avanza y frena la máquina.
walk-settings-touched = Pulsa un botón, y el dial queda en otra posición.
walk-answers-label = Su respuesta
walk-fine = bien
walk-answered-unseen = Contestado, pero no mirado el tiempo suficiente.
walk-reason = ¿Qué es?
walk-reason-none = elija …
walk-note = Nota
walk-note-whole = Nota sobre toda la máquina
walk-noted = Nota: { $note }
walk-before = Atrás
walk-next = Siguiente
walk-left = { $left ->
    [one] Anotado. Queda un punto pendiente.
   *[other] Anotado. Quedan { $left } puntos pendientes.
}
walk-none-left = Todos los puntos están contestados.
walk-to-open = Al siguiente
walk-sheet-label = Hoja de esta máquina
walk-shift = Turno
walk-hours = Horas del horómetro
walk-hours-bad = Escriba las horas como las muestra el horómetro, con un decimal.
walk-sheet-kept = Todo se guarda con el recorrido y queda en la hoja que se puede imprimir después.
walk-decide-label = Qué se hace con la máquina
walk-take = Tomar la máquina
walk-tag-out = Fuera de servicio y avisar
walk-take-sure = ¿Tomar esta máquina?
walk-tag-out-sure = ¿Marcar esta máquina fuera de servicio y avisar?
walk-unanswered = { $count ->
    [one] Un punto no tiene respuesta: { $names }.
   *[other] { $count } puntos no tienen respuesta: { $names }.
}
walk-unseen = { $count ->
    [one] Un punto se contestó sin mirarlo lo suficiente: { $names }.
   *[other] { $count } puntos se contestaron sin mirarlos lo suficiente: { $names }.
}
walk-and-more = { $names } y { $more } más
walk-no-hours = Las horas no están anotadas.
walk-back = Volver a la inspección

# La clase
nav-class = Clase
class-title = Clase
class-to = A la clase
class-join-title = Unirse a la clase
class-join-more = Su instructor tiene el código. Desde entonces, lo que usted conduce en este navegador se envía solo a la clase; lo que no se puede enviar ahora se envía después.
class-code = Código de la clase
class-your-name = Su nombre
class-join = Unirse
class-enter-title = Para instructores
class-passphrase = Frase de acceso
class-enter = Abrir el tablero
class-leave = Dejar la clase en este equipo
class-you-are = Usted conduce como { $name }.
class-all-sent = Todo lo que condujo en este equipo ha llegado a la clase.
class-waiting = { $count ->
    [one] Una conducción está solo en este equipo. Se envía en cuanto se pueda llegar a la clase: no la borre antes.
   *[other] { $count } conducciones están solo en este equipo. Se envían en cuanto se pueda llegar a la clase: no las borre antes.
}
class-loading = Preguntando a la clase …
class-no-runs = Aún no ha llegado nada.
class-older = Mostrar también recorridos anteriores
class-runs = Lo que ha llegado
class-person = Quién
class-state = Estado
class-findings = Faltas
class-critical = Críticas
class-live = Conduciendo ahora
class-nobody-drives = En este momento no conduce nadie.
class-at-step = paso { $step }
class-faults = { $count ->
    [0] sin faltas
    [one] una falta
   *[other] { $count } faltas
}
class-people = Personas
class-nobody-yet = Aún no se ha unido nadie.
class-joined = Desde
class-count = Conducciones
class-delete-more = Borrar a alguien borra aquí sus conducciones, registros y pruebas previas. Lo que se guardó como archivo, se imprimió o se entregó no se puede recuperar.
class-file = La clase como archivo
class-file-more = Un archivo con todas las personas, sus conducciones y registros, y las reglas que usted entregó: para guardarlo o llevarlo a otro equipo. Lo que ya está aquí queda como está.
class-file-save = Guardar la clase
class-file-take = Cargar un archivo de clase
class-file-taken = El archivo tiene { $runs } conducciones; { $new } aún no estaban aquí.
board-title = Quién ha mostrado qué
board-more = De las últimas diez conducciones de cada persona que algo muestran. «Preparación suficiente» pide cinco conducciones en dos días y el extremo inferior del intervalo del 95 %. No es permiso para conducir una máquina real.
board-last = Última
board-lately = { $clean } de { $all } sin falta, últimas { $runs } conducciones, al menos { $least }
board-missed = Lo que la clase pasa por alto
board-missed-by = { $people ->
    [one] una persona
   *[other] { $people } personas
}, { $times ->
    [one] una vez
   *[other] { $times } veces
}
bring = Traer las demás a este equipo
bring-told = { $all ->
    [0] En ninguna conducción de la clase se encontró.
   *[other] De las conducciones más nuevas de la clase, { $all } lo muestran; { $here } de ellas están en este equipo.
}
bring-at = Trayendo la conducción { $n } de { $count } y conduciéndola otra vez …
bring-lacks = { $count ->
    [one] No se pudo traer una conducción
   *[other] No se pudieron traer { $count } conducciones
}. { $why }
board-play-all = Ver cada uno
class-run-opening = Trayendo la conducción y conduciéndola otra vez …
class-certifies-nobody = Lo que se ve aquí es lo que la gente condujo en un patio simulado. No certifica a nadie: quién puede conducir una máquina real lo decide el empleador tras práctica supervisada y una evaluación en el lugar de trabajo.
run-waiting = espera a conducirse otra vez
run-judged = conducida otra vez, salió igual
run-differs = conducida otra vez, salió distinta: no cuenta
run-unreadable = aquí no se puede conducir otra vez
host-none = Este sitio no tiene clase. Las conducciones quedan en este navegador; guárdelas como archivos y entréguelas a su instructor.
host-away = Ahora no se puede llegar a la clase ({ $why }).

person-none = De esta persona no hay nada aquí.
person-again = Lo que se repite
person-times = { $times ->
    [one] una vez
   *[other] { $times } veces
}
board-save = Guardar como tabla (CSV)
board-trains = Se practica en: { $exercises }

# La lección

lesson-title = La lección
lesson-to = Para enseñar: la lección, en un proyector.
lesson-lead = Cada tema tiene qué decir, mostrar, preguntar y conducir, y qué mostrar junto a la máquina real. Con las flechas o un control de presentaciones se va de tema en tema.
lesson-loading = Se está cargando la lección …
lesson-trouble = No se puede mostrar la lección: { $why }
lesson-no-topic = La lección no tiene ningún tema con ese nombre.
lesson-no-scene = Lo que se debía mostrar aquí no se puede dibujar.
lesson-to-topics = Todos los temas
lesson-begin = Empezar por el primer tema
lesson-topics = Temas
lesson-topic = Tema
lesson-tick = Visto: { $topic }
lesson-covered = Visto
lesson-covered-of = { $covered } de { $count } temas vistos
lesson-place = Tema { $number } de { $count }
lesson-nav = De tema en tema
lesson-back = Atrás
lesson-say = Qué decir
lesson-caution = Cuidado
lesson-show = Qué mostrar
lesson-shows = Imágenes de este tema
lesson-show-number = Imagen { $number }
lesson-ask = Para preguntar en voz alta
lesson-drive = Después se conduce
lesson-at-truck = Junto a la máquina real
lesson-right = Bien
lesson-wrong = Mal
lesson-again = Desde el principio
lesson-slow = A media velocidad
lesson-time = Tiempo de las conducciones
lesson-horn-on = suena
lesson-horn-off = callada
lesson-may-run = puede circular
lesson-must-not-run = no debe circular
lesson-given = Esta clase
lesson-began = Empezada:
lesson-trainer = Instructor
lesson-present = Quién está presente
lesson-present-more = Un nombre por línea.
lesson-present-title = Presentes
lesson-note = Nota
lesson-print = Imprimir el registro
lesson-save = Guardar el registro como archivo
lesson-end = Terminar esta lección
lesson-where-kept = El registro queda en este navegador hasta que usted lo guarde o imprima; el servidor de la clase no lo recibe. Empieza con la primera marca.
lesson-not-kept = No se pudo guardar el registro: { $why } Guárdelo como archivo.
lesson-unreadable = { $count ->
    [one] Hay un registro de una lección que no se puede leer.
   *[other] Hay { $count } registros de lecciones que no se pueden leer.
}
lesson-past = Lecciones dadas
lesson-past-counts = { $covered } de { $count } temas, { $present } presentes
lesson-left-out = Sin ver
lesson-go-on = Seguir con ella
lesson-record-title = Registro de una lección
lesson-record-none = En este navegador no hay registro de esta lección.
lesson-record-caution = Dice qué se enseñó en el aula, no lo que sabe hacer nadie: una máquina real exige formación supervisada y una evaluación en el lugar de trabajo.

# Lo que cada uno dice de su conducción

own-title = Primero, su palabra
own-more = ¿Cómo fue? Dígalo antes de ver lo que se encontró. Quien nota sus propios errores no necesita que se los digan.
own-people = Primero las personas y otras máquinas
own-looking = Bocina, señales, miradas
own-stopping = Arranques, paradas, velocidad
own-tidy = Línea, horquillas, carga, postura
own-fine = Bien
own-wrong = Algo anduvo mal
own-open = Abrir el repaso
own-skip = Abrirlo sin mi palabra
own-beside-title = Su palabra y lo que se encontró
own-question = Sobre
own-said = Usted
own-was-found = Encontrado
own-word = Entonces
own-found = { $count ->
    [0] nada
    [one] una falta
   *[other] { $count } faltas
}
own-word-none = no dijo nada
own-word-fine = cierto: estuvo bien
own-word-noticed = bien notado
own-word-missed = ▲ no lo notó
own-word-too-hard = fue más duro consigo de lo que fue
own-progress-title = Lo que nota usted mismo
own-progress-more = De lo que se encontró mal, cuánto había dicho usted antes de abrir el repaso.
own-progress = { $noticed } de { $faults } notadas; { $hard } de { $fine } veces más duro consigo de lo que fue
drive-errors-welcome = Aquí los errores son bienvenidos: este es el lugar para cometerlos.
drive-helps-rest = Ya lo condujo sin faltas, así que esta vez las ayudas descansan. Se pueden encender en «Más».

# Notas sobre momentos, y momentos de un tipo

note-title = Notas
note-meant = ¿Qué se quería hacer?
note-happened = ¿Qué pasó y por qué?
note-next = ¿Qué sigue?
note-said = Otra cosa
note-pin = Fijarla en { $at }
note-link = Enlace a este momento
note-full = Hay { $most } notas, las que caben en un recorrido: borre una primero.
note-copy = Copiar el enlace a este momento
note-copied = Copiado. Se abre en el navegador que guarda esta conducción:
note-not-copied = Esta página no puede copiar por sí sola. El enlace, que se abre en el navegador que guarda esta conducción:
asks-fold = Tres preguntas
asks-label = Las tres preguntas de un repaso
asks-noted = { $count ->
    [one] una nota
   *[other] { $count } notas
}
draw-ring = Dibujar un círculo en el patio
draw-arrow = Dibujar una flecha en el patio
draw-pad = Dibujar en el patio
draw-help-ring = Arrastre del centro al borde. Con teclas: las flechas lo mueven, + y − cambian el tamaño, Intro lo deja, Escape lo descarta.
draw-help-arrow = Arrastre hasta lo que señala. Con teclas: las flechas la mueven, + y − cambian el tamaño, Re Pág y Av Pág la giran, Intro la deja, Escape la descarta.
draw-keep = Dejarlo así
draw-give-up = Descartarlo
draw-done = Dibujado en { $at }: va con la próxima nota que se fije.
draw-pin = Fijarlo sin palabras
draw-away = Quitarlo
draw-a-ring = un círculo en el patio
draw-an-arrow = una flecha en el patio
tour-play = Reproducir uno tras otro
tour-play-how = Cada uno desde unos segundos antes hasta unos segundos después. La dirección de la página que se abre es un enlace a todos. Re Pág y Av Pág, o un control de presentación, llevan atrás y adelante.
tour-label = Momentos uno tras otro
tour-place = { $number } de { $count }
tour-back = El momento anterior
tour-on = El momento siguiente
tour-over = · Ese fue el último.
two-title = Lado a lado
two-pick = Otro recorrido de este ejercicio
two-open = Lado a lado
two-back = A la repetición del primero
two-sync = Juntos
two-by-place = por lugar
two-by-time = por tiempo
two-later = A la derecha, { $seconds } s más tarde en este lugar
two-earlier = A la derecha, { $seconds } s antes en este lugar
two-same = Los dos en este lugar al mismo tiempo
two-never = El recorrido de la derecha no llega hasta aquí
two-other-course = Los dos se hicieron en ejercicios distintos.
moments-title = Momentos
moments-to = Momentos de un mismo tipo, para verlos juntos.
moments-lead = Cada falta de las conducciones que quedan en este navegador y se pueden ver, por tipo: cada una lleva a su momento en la repetición.
moments-none = No se ha encontrado ninguna falta en conducciones que se puedan ver.
moments-count = { $count ->
    [one] una vez
   *[other] { $count } veces
}
moments-all = Todos los tipos

# The class in figures

figures-title = La clase en cifras
figures-to = La clase en cifras
figures-of = { $runs ->
    [one] Con el único recorrido que llegó y se puede volver a simular.
   *[other] Con los { $runs } recorridos más nuevos que llegaron y se pueden volver a simular.
}
figures-too-few = muy pocas personas
figures-looked = Miró antes de entrar
figures-looked-none = Nadie llegó todavía a una línea de alto ni a un lugar sin vista.
figures-looked-mean = { $people ->
    [one] { $share } de las líneas de alto y los lugares sin vista, de una persona
   *[other] { $share } de las líneas de alto y los lugares sin vista, promedio de { $people } personas
}
figures-looked-more = Cuántas veces miró a los dos lados antes de pasar una línea de alto o entrar a un lugar sin vista, en sus últimos diez recorridos con alguno. De todo lo que se entrenó en simuladores, esto se volvió a ver en calles reales, aun medio año después; por eso va primero.
figures-looked-crossings = { $count ->
    [one] una vez a un cruce sin mirar
   *[other] { $count } veces a un cruce sin mirar
}
figures-teach = Qué volver a enseñar
figures-teach-more = Primero lo que le pasa a más personas; si son iguales, lo más grave. La parte es de quienes manejaron donde se puede cometer.
figures-teach-of = { $people } de { $of } personas ({ $low } a { $high })
figures-teach-run = el recorrido que lo muestra
figures-teach-all = También le pasa a quienes manejan bien: enséñelo a todos.
figures-teach-weak = Le pasa a quienes también tienen problemas con lo demás.
figures-curves = Aprendizaje
figures-curves-more = Promedio de los puntos según el número del intento, mientras queden tres personas. Quien lo deja cambia el promedio: por eso la tabla dice cuánto ganaron las mismas personas.
figures-curves-table = Lo mismo en una tabla
figures-curves-number = Intento
figures-curves-nth = N.º { $number }
figures-curves-gained = Ganaron
figures-curves-by = { $points } puntos
figures-shares = Las personas en conjunto
figures-shares-more = Cada parte se acerca al medio de la clase, tanto más cuanto menos mostró la persona. Sirve para ver la clase; qué tan lista está una persona se ve en el tablero, solo por sus propios recorridos.
figures-shares-middle = medio { $middle }, diferencia entre personas { $apart }, { $people } personas
figures-items = Qué dice la prueba de sí misma
figures-items-people = { $people ->
    [0] Nadie hizo todavía una prueba completa.
    [one] Una persona hizo una prueba completa.
   *[other] { $people } personas hicieron una prueba completa; de cada una cuenta la primera.
}
figures-items-from = Las partes llevan su intervalo desde { $shares } personas; si los puntos van juntos se dice desde { $alpha }, y cómo va cada uno con los demás desde { $rest }.
figures-items-item = Punto
figures-items-right = Bien
figures-items-share = Parte
figures-items-with = Con los demás
figures-items-goes = { $value } ({ $low } a { $high })
figures-items-alike = nadie se distingue
figures-items-alpha = Cómo van juntos los puntos: alfa { $value } ({ $low } a { $high })
figures-items-alpha-none = Cómo van juntos los puntos no se puede decir: nadie se distingue.
figures-items-alpha-more = En una clase bien entrenada las personas se distinguen poco, y alfa baja aunque la prueba sea buena.
figures-out = Para otros programas
figures-out-more = Tablas que abre cualquier hoja de cálculo. Lo que se entregó no se puede recuperar cuando aquí se borra a alguien.
figures-out-attempts = Guardar los recorridos (CSV)
figures-out-findings = Guardar los hallazgos (CSV)
figures-out-statements = Guardar para un almacén de registros (xAPI)
figures-out-told = { $count ->
    [one] Se guardó una declaración.
   *[other] Se guardaron { $count } declaraciones.
} { $left ->
    [0] No falta ninguna.
    [one] Queda fuera un recorrido: no es lo que dice su archivo, o no tiene hora o nombre.
   *[other] Quedan fuera { $left } recorridos: no son lo que dicen sus archivos, o no tienen hora o nombre.
} Lleva nombres de personas.

# What is due

due-title = Qué toca hacer
due-more = Según los registros de capacitación y la última práctica aquí. Las normas locales y las reglas del empleador pueden pedir más.
due-now = Ahora
due-later = Después
due-from = desde el { $day }
due-no-record = sin registro de capacitación
due-never-evaluated = Evaluación en el lugar de trabajo
due-trained-since = Evaluación después de la capacitación
due-three-years = Evaluación a los tres años
due-half-a-year = Volver a practicar: medio año sin hacerlo (un consejo, no una regla)
due-unsafe-seen = Repaso: se le vio manejar de forma insegura
due-near-miss = Repaso: accidente o casi accidente
due-evaluation-unsafe = Repaso: una evaluación que no se aprobó
due-other-truck = Repaso: otro tipo de transpaleta
due-workplace-changed = Repaso: cambió el lugar de trabajo

# The training record

training-title = Registro de capacitación
training-to = Registro de capacitación
training-to-person = A la persona
training-not-yours = Los registros de capacitación son para el instructor.
training-not-kept = Esto todavía no se guardó ({ $why }). Se intenta otra vez con el próximo cambio; para estar seguro, guarde el registro como archivo.
training-here = Este registro está solo en este navegador. Guárdelo como archivo o imprímalo antes de borrar los datos del navegador.
training-at-host = Este registro se guarda con la clase y va en el archivo de la clase.
training-save = Guardar el registro (JSON)
training-simulation = Evaluado con la versión { $version } de la simulación.
training-caution = Este registro reúne lo que escribieron personas. Por sí solo no certifica a nadie: certifica el empleador, según las normas locales, después de la capacitación y de una evaluación hecha por personas competentes.
training-operator = Operador
training-trained = Capacitación
training-evaluated = Evaluación
training-none = todavía ninguna
training-day-by = { $day }, { $by }
training-safe = maneja con seguridad
training-not-yet = todavía no
training-whole = Aquí está todo lo que pide 29 CFR 1910.178(l)(6): el operador, las dos fechas y por quién.
training-lacks = De lo que pide 29 CFR 1910.178(l)(6) todavía falta:
training-given = Capacitaciones
training-first = Primera capacitación
training-refresher = Repaso
training-kind = Tipo
training-add = Anotar una capacitación
training-on = Día
training-by = Capacitó
training-truck = Transpaleta
training-site = Lugar
training-note = Nota
training-keep = Anotar
training-which-day = Diga qué día fue.
training-by-whom = Diga por quién.
lacks-training = una capacitación
lacks-evaluation = una evaluación que terminó con “maneja con seguridad”
lacks-evaluated-before = una evaluación posterior a la capacitación
lacks-own-word = la palabra de otra persona: nadie se capacita ni se evalúa a sí mismo
lacks-yet-to-come = un día que ya pasó: uno de ellos todavía no llega
lacks-list = la lista “{ $list }” de esa evaluación, que no está aquí
lacks-items = en la hoja de la evaluación: { $items }
seen-sheet-title = En la transpaleta real
seen-sheet-more = Hojas para la práctica supervisada y para la evaluación en el lugar de trabajo. Un toque por cada cosa que se vio; todos se guardan.
seen-sheet-practice = Práctica
seen-sheet-evaluation = Evaluación
seen-sheet-purpose = Para qué es la hoja
seen-sheet-open = abierta
seen-sheet-truck = La transpaleta
seen-sheet-site = El lugar de trabajo
seen-sheet-must = hay que verlo
seen-sheet-may = se puede ver
seen-sheet-seen = Visto
seen-sheet-seen-ok = Bien hecho
seen-sheet-seen-not-yet = Todavía no
seen-sheet-not-seen = No se vio
seen-sheet-all-seen = Todo lo que hay que ver se hizo bien.
seen-sheet-left = { $count ->
    [one] Queda una cosa por ver.
   *[other] Quedan { $count } cosas por ver.
}
seen-sheet-decide-safe = Maneja con seguridad
seen-sheet-decide-not-yet = Todavía no
seen-sheet-add = Empezar una hoja
seen-sheet-by = Visto por
seen-sheet-begin = Empezar
seen-sheet-there = Esta hoja ya está: siga con ella arriba.
happened-title = Qué pasó
happened-more = Un acto inseguro que se vio, un accidente o casi accidente, otra transpaleta, un cambio en el lugar de trabajo: cada uno pide un repaso.
happened-add = Anotar qué pasó
happened-cause = Qué fue
happened-by = Visto por
happened-codes = Qué se vio
happened-pick = Elija …
happened-unpick = Quitar
happened-trains = Se practica con

# Las reglas de este centro

rules-title = Reglas de este centro
rules-lead = Cada regla con sus límites junto a lo habitual. Lo que usted cambie y guarde vale para los recorridos que empiecen después en este equipo; cada recorrido lleva consigo las reglas con que se condujo.
rules-rest = Con este navegador usted conduce para una clase: ahí valen las reglas del servidor de la clase, y las que usted puso quedan en reposo.
rules-trouble = No se pueden mostrar las reglas: { $why }
rules-not-held = Las reglas que se pusieron en este equipo no se pueden leer ({ $why }). Valen las habituales.
rules-loading = Leyendo las reglas …
rules-own-title = Reglas y límites
rules-site = Nombre de este centro
rules-find = Buscar una regla
rules-only = Solo lo que no es lo habitual
rules-zones = { $zones ->
    [one] Una zona de velocidad propia de este centro vino de un archivo y vale también.
   *[other] { $zones } zonas de velocidad propias de este centro vinieron de un archivo y valen también.
}
rules-pretest = Prueba previa
rules-points = Lo que cuestan las faltas
rules-shared = Compartido por varias reglas
rules-group = { $all } en total, { $changed } fuera de lo habitual
rules-usual = Lo habitual: { $usual }. De { $least } a { $most }.
rules-usual-source = Lo habitual: { $usual }. De { $least } a { $most }. Fuente: { $source }.
rules-no-number = Esto no es un número. No se cambió nada.
rules-outside = Use un número de { $least } a { $most }. No se cambió nada.
rules-changed-mark = no es lo habitual
rules-back = Restituir
rules-back-of = Restituir: { $name }
rules-back-rule = Restituir esta regla
rules-back-rule-of = Restituir esta regla: { $name }
rules-about = Gravedad: { $severity }. Fuente: { $source }.
rules-about-graver = Gravedad: { $severity }, { $graver } más allá del último número. Fuente: { $source }.
rules-watched = Se vigila
rules-not-watched = No se vigila: no encuentra nada y no cuenta como ocasión
rules-watched-of = Se vigila: { $name }
rules-say = Una frase propia
rules-say-label = Se dice junto a cada hallazgo de esta regla
rules-said-elsewhere = En el otro idioma: { $said }
rules-saving = Guardar las reglas
rules-saved = Guardado. { $changed } fuera de lo habitual.
rules-unsaved = Sin guardar todavía. { $changed } fuera de lo habitual.
rules-save = Guardar
rules-undo = Deshacer
rules-all-back = Restituir todo
rules-kept = Las reglas están guardadas. Valen desde el próximo recorrido.
rules-put-back = Vuelven a valer las reglas habituales.
rules-put-back-drives = { $drives ->
    [one] Vuelven a valer las reglas habituales. Un recorrido muestra otra vez su primera evaluación.
   *[other] Vuelven a valer las reglas habituales. { $drives } recorridos muestran otra vez su primera evaluación.
}
rules-sheets = Hojas para la transpaleta real
rules-sheets-lead = Lo que un instructor mira en la transpaleta real, en la práctica y en la evaluación, es una lista. Guárdela, cámbiela en cualquier editor para las máquinas y los lugares de este centro, y tráigala de nuevo. Póngale a la lista cambiada un id propio: las hojas que se empezaron siguen con la lista de ese id.
rules-sheets-shipped = Las hojas siguen «{ $list }», que vino con el sitio.
rules-sheets-own = Las hojas siguen «{ $list }», que es de este centro.
rules-sheets-in = Una lista de un archivo
rules-sheets-out = Guardar la lista
rules-sheets-back = Volver a la lista que vino con el sitio
hand-out = Reglas de la clase
hand-out-lead = Quien conduce para la clase conduce con estas reglas desde la próxima conducción, y todo lo que llega se evalúa con ellas, sin importar con cuáles se condujo.
hand-out-site = La clase sigue las reglas del sitio tal como se sirve.
hand-out-own = La clase sigue reglas que entregó un instructor.
hand-out-set = Entregar a la clase las reglas guardadas
hand-out-back = Volver a las reglas del sitio
rules-files = Como archivo
rules-files-lead = El archivo dice solo lo que no es lo habitual. Un archivo que entra se muestra primero; vale cuando se guarda.
rules-in = Reglas desde un archivo
rules-out = Guardar como archivo
rules-came-in = El archivo se muestra arriba. Vale cuando usted lo guarde.
rules-too-large = El archivo es demasiado grande para ser uno de reglas.
rules-preview = Qué cambiaría
rules-preview-lead = Cada recorrido guardado aquí se vuelve a conducir con las mismas manos y se evalúa con las reglas de arriba. Nadie se mueve de otro modo en el patio: las personas salen donde salieron. Los recorridos mismos quedan como están.
rules-not-pretest = { $drives ->
    [one] Una parte de una prueba previa queda fuera: sigue las reglas con que se empezó.
   *[other] { $drives } partes de pruebas previas quedan fuera: siguen las reglas con que se empezaron.
}
rules-not-old = { $drives ->
    [one] Un recorrido de otra versión de la simulación no se puede volver a conducir.
   *[other] { $drives } recorridos de otra versión de la simulación no se pueden volver a conducir.
}
rules-not-what-it-says = { $drives ->
    [one] Un recorrido no es lo que dice ser y no se evalúa de nuevo.
   *[other] { $drives } recorridos no son lo que dicen ser y no se evalúan de nuevo.
}
rules-look = Ver qué cambiaría
rules-stop = Parar
rules-looking = Recorrido { $n } de { $count }, { $percent } %
rules-looked = Conducidos de nuevo: { $all }. Saldrían de otro modo: { $changed }.
rules-looked-some = Parado. Conducidos de nuevo: { $all }. Saldrían de otro modo: { $changed }.
rules-look-trouble = No se pudo seguir: { $why }
rules-judge-again = Evaluar de nuevo estos recorridos
rules-first = Mostrar otra vez las primeras evaluaciones
rules-stale = Las reglas cambiaron desde entonces. Vea otra vez qué cambiaría.
rules-save-first = Para evaluar de nuevo estos recorridos, guarde primero las reglas.
rules-no-drives = No hay aquí ningún recorrido que se pueda evaluar de nuevo.
rules-judged-again = { $drives ->
    [one] Un recorrido se evalúa ahora con estas reglas. Lo que se dijo primero se guarda al lado.
   *[other] { $drives } recorridos se evalúan ahora con estas reglas. Lo que se dijo primero se guarda al lado.
}
rules-first-again = { $drives ->
    [one] Un recorrido muestra otra vez su primera evaluación.
   *[other] { $drives } recorridos muestran otra vez su primera evaluación.
}
rules-would-go-on = Sin evaluar: con estas reglas el recorrido habría seguido donde terminó.
rules-would-be-otherwise = Sin evaluar: con estas reglas habría pasado otra cosa.
rules-compared = Antes y después
rules-col-drive = Recorrido
rules-col-points = Puntos
rules-col-faults = Críticas, graves, leves
rules-col-clean = Limpio
rules-col-moved = Qué se mueve
rules-then = { $now } antes, { $then } después
rules-no-points = ninguno
rules-faults = { $critical }, { $major }, { $minor }
rules-clean = sí
rules-not-clean = no
rules-otherwise = { $name }: otra gravedad
rules-more = { $name }: { $times } más
rules-less = { $name }: { $times } menos
settings-rules-more = Límites, qué se vigila, qué ejercicios cuentan y con qué empieza quien llega.
debrief-judged-again = Evaluado de nuevo el { $day } con { $rules }. Con las reglas con que se condujo: { $points }.
debrief-judged-points = { $points } puntos
debrief-judged-no-points = sin puntos
debrief-judged-site = las reglas de { $site }
debrief-judged-unnamed = otras reglas que aquellas con que se condujo

# Por lo que se guía la clase en este equipo

class-set-title = La clase en este equipo
class-set-lead = Cada cosa de estas vale de inmediato. Lo que no cuenta se puede conducir igual, y no muestra ninguna habilidad en el progreso ni en el tablero.
class-set-exercises = Ejercicios que cuentan
class-set-counting = { $counted } de { $all }
class-set-newcomers = Quien escriba un nombre que no ha conducido aquí empieza con:
class-set-as-before = como estaba
class-set-host = El servidor de una clase cuenta todos los ejercicios; esto es para los recorridos guardados en este navegador.
