# Lo que dice el evaluador: observaciones, habilidades, gravedad, finales, unidades y lo que las
# acompaña. Cada observación tiene cuatro textos: título, qué pasó, por qué importa y qué hacer.

## Faltas

contact-cone = Tocó un cono
contact-cone-what = La transpaleta entró en un cono a { $measured }.
contact-cone-why = Un cono representa una estantería, una carga o el pie de alguien. El cono se cae; lo demás no.
contact-cone-instead = Deje espacio a ambos lados. En una curva las horquillas cortan por dentro: ábrase un poco antes de girar.

contact-structure = Chocó con algo fijo
contact-structure-what = La transpaleta chocó con una estantería, una pared o una carga a { $measured }. Hasta { $limit } cuenta como roce.
contact-structure-why = Un golpe puede debilitar una estantería o hacer caer una carga. Un pie o una mano en medio queda aplastado.
contact-structure-instead = Reduzca la velocidad con tiempo cerca de todo lo que sea fijo. Si duda del espacio, pare y mire.

left-the-lane = Se salió del carril
left-the-lane-what = Una rueda estuvo fuera del borde del carril durante { $measured }. Hasta { $limit } cuenta como roce.
left-the-lane-why = Al otro lado del borde camina gente y hay mercancía. Los demás confían en que usted siga por su lado.
left-the-lane-instead = Gire con tiempo y con movimientos pequeños. Fíjese por dónde pasan las ruedas de carga.

gate-missed = Se saltó una puerta
gate-missed-what = Pasó por una puerta posterior antes de la que tocaba.
gate-missed-why = Las puertas marcan el camino previsto. En un almacén, salirse de él es estar donde nadie lo espera.
gate-missed-instead = Busque la puerta siguiente en cuanto haya pasado una. Si ya se la pasó, pare, mire y vuelva.

gate-wrong-way = Pasó por una puerta en sentido contrario
gate-wrong-way-what = Pasó por una puerta en contra de su sentido.
gate-wrong-way-why = En un pasillo de sentido único los demás vehículos vienen de frente.
gate-wrong-way-instead = Mire la flecha de la puerta antes de girar hacia ella.

over-speed = Demasiado rápido para el límite
over-speed-what = Condujo a { $measured } donde se permiten { $limit }.
over-speed-why = Al doble de velocidad hace falta cuatro veces más distancia para frenar. Si hay un límite, hay un motivo que quizá usted no vea.
over-speed-instead = Suelte acelerador antes de que empiece la zona, para entrar ya a su velocidad.

corner-speed = Demasiado rápido en una curva
corner-speed-what = La curva tiró hacia un lado con { $measured }. No pase de { $limit }.
corner-speed-why = Con esa fuerza una carga empieza a deslizarse y usted puede perder el equilibrio. La propia transpaleta puede patinar o volcar.
corner-speed-instead = Suelte acelerador antes de la curva, no dentro de ella. Cuanto más cerrada sea, menos velocidad.

plugging-ran-back = Retrocedió tras frenar por inversión de marcha
plugging-ran-back-what = Después de parar, la transpaleta avanzó { $measured } en el otro sentido. No pase de { $limit }.
plugging-ran-back-why = Quien está detrás ve que la transpaleta se detiene y no espera que vuelva hacia atrás.
plugging-ran-back-instead = Lleve el acelerador a punto muerto justo antes de que la transpaleta se detenga.

brake-arm-as-service = Usó el freno del timón para una parada normal
brake-arm-as-service-what = El timón entró en una zona de freno a { $measured } sin que nada lo pidiera. Hasta { $limit } está bien.
brake-arm-as-service-why = Este freno actúa de golpe. Lanza hacia delante al operador y a la carga, y se gasta para el día en que haga falta.
brake-arm-as-service-instead = Reduzca con el frenado por inversión de marcha: gire el acelerador suavemente en contra del movimiento. Guarde el freno del timón para emergencias y para estar parado.

throttle-snatched = Aceleró de golpe
throttle-snatched-what = El acelerador pasó de punto muerto a casi el máximo en { $measured }. Tómese al menos { $limit }.
throttle-snatched-why = Un tirón puede hacerle perder el equilibrio y desplazar la carga.
throttle-snatched-instead = Gírelo un poco, sienta cómo tira la transpaleta y siga girando.

emergency-late = Demasiado tarde en una emergencia
emergency-late-what = El timón no llegó a una zona de freno hasta { $measured } después de la señal, o no llegó. El límite es { $limit }.
emergency-late-why = A velocidad de marcha, cada segundo cuesta la longitud de una transpaleta o más antes de empezar a frenar.
emergency-late-instead = No piense ni gire: primero el timón. Suéltelo o bájelo hasta el fondo.

other-brake-used = Usó otro freno que el pedido
other-brake-used-what = La señal pedía un extremo del recorrido del timón y usted paró de otra manera.
other-brake-used-why = Hacen falta los dos: soltar cuando está a punto de caerse, bajar cuando tiene las manos puestas. Con el susto solo funciona lo que se ha practicado.
other-brake-used-instead = Lea la tarea antes de salir y, parado, haga una vez con las manos el movimiento de freno.

forks-first-travel = Circuló con las horquillas por delante
forks-first-travel-what = Condujo { $measured } con las horquillas por delante. Hasta { $limit } cuenta como maniobra.
forks-first-travel-why = Así la transpaleta gira con el extremo lejano y las puntas llegan a los pies de la gente antes que usted. La norma solo cambia el extremo que va delante cuando una carga tapa la vista, y pide que la carga vaya detrás.
forks-first-travel-instead = Dé la vuelta y circule con la unidad motriz por delante.

forks-high-in-travel = Circuló con las horquillas altas
forks-high-in-travel-what = Las horquillas iban a { $measured } al circular. Llévelas a { $limit } o menos.
forks-high-in-travel-why = Una carga elevada se balancea más y puede caer. La ley lo dice para las pendientes: solo lo necesario para no tocar el suelo. En llano es buena práctica.
forks-high-in-travel-instead = Baje las horquillas antes de salir: que apenas libren el suelo.

arm-strength-turn = Giró el timón a fuerza de brazos
arm-strength-turn-what = Lo giró con la fuerza de los brazos: { $measured }. El límite es { $limit }.
arm-strength-turn-why = Es lento y, a lo largo de un turno, daña hombros y espalda.
arm-strength-turn-instead = Colóquese en el lado desde el que su peso puede girar el timón. Cambie de lado con la transpaleta parada.

stepped-across-moving = Cambió de lado en marcha
stepped-across-moving-what = Cambió de lado a { $measured }. Hágalo solo a { $limit } o menos.
stepped-across-moving-why = Por un momento está sobre un solo pie. Una sacudida le pone el otro en el suelo, delante de la transpaleta o a su lado.
stepped-across-moving-instead = Pare, cambie de lado y luego arranque.

no-horn-moving-off = Arrancó sin tocar la bocina
no-horn-moving-off-what = No sonó la bocina en los { $measured } antes de arrancar. Tóquela dentro de los { $limit } anteriores.
no-horn-moving-off-why = La gente camina cerca de una transpaleta parada. La bocina le avisa de que va a moverse.
no-horn-moving-off-instead = Mire alrededor, toque la bocina, espere un momento y arranque.

tipped-over = La transpaleta volcó
tipped-over-what = La transpaleta volcó y la práctica terminó.
tipped-over-why = Un vuelco puede matar al operador.
tipped-over-instead = Reduzca antes de las curvas, lleve las horquillas bajas y no se acerque a los bordes.

## Aciertos

clean-plug = Parada limpia por inversión de marcha
clean-plug-what = Paró a { $measured } de la marca; hasta { $limit } es una parada limpia. La transpaleta no retrocedió.
clean-plug-why = Quien sabe parar en una línea sabe parar por una persona.
clean-plug-instead = Siga así: suelte, gire el acelerador en contra del movimiento y vuelva a punto muerto justo antes de que se detenga.

quick-emergency-stop = Parada de emergencia rápida
quick-emergency-stop-what = El timón estaba en la zona de freno correcta { $measured } después de la señal; hasta { $limit } es rápido.
quick-emergency-stop-why = Unas manos rápidas ahorran metros.
quick-emergency-stop-instead = Siga así y practique también el otro extremo del recorrido.

gentle-start = Arranque suave
gentle-start-what = El acelerador nunca subió más de { $measured } en un cuarto de segundo; hasta { $limit } es suave.
gentle-start-why = Un arranque suave mantiene la carga en su sitio y a usted en pie.
gentle-start-instead = Siga así, sobre todo con carga.

horn-before-moving = Bocina antes de arrancar
horn-before-moving-what = Tocó la bocina { $measured } antes de arrancar; dentro de { $limit } es a tiempo.
horn-before-moving-why = Todos los que estaban cerca sabían que la transpaleta iba a moverse.
horn-before-moving-instead = Siga así y mire también alrededor: la bocina no aparta a la gente, la avisa.

full-task = Tarea completa
full-task-what = Hizo la tarea completa en { $measured }.
full-task-why = Cada paso se condujo como se pedía.
full-task-instead = Hágala otra vez con más suavidad. La velocidad viene sola.

clean-lap = Vuelta limpia
clean-lap-what = Hizo una vuelta por todas las puertas sin faltas, en { $measured }.
clean-lap-why = Una vuelta limpia puede ser suerte. Varias seguidas son habilidad.
clean-lap-instead = Siga así una vuelta más.

## Habilidades

skill-checking = Revisión
skill-mounting = Posición en la plataforma
skill-starting-and-stopping = Arrancar y parar
skill-steering = Dirección
skill-forks-and-load = Horquillas y carga
skill-right-of-way = Preferencia de paso
skill-speed-and-room = Velocidad y espacio
skill-leaving = Dejar la transpaleta

## Gravedad

severity-good = bien hecho
severity-minor = leve
severity-major = grave
severity-critical = crítica

## Signos de las unidades

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

## De dónde viene una regla

source-common-practice = práctica habitual, sin fuente escrita
source-course-task = tarea de este recorrido
source-site-rule = regla del centro de trabajo

## Lo que cambió un centro de trabajo

changed-again-after = Cuándo vuelve a contar la misma falta
changed-rest-speed = Qué cuenta como parado: velocidad
changed-rest-for = Qué cuenta como parado: tiempo
changed-stretch = Longitud del tramo que cuenta como una ocasión
changed-turn = Qué cuenta como giro
changed-stop-from = Qué cuenta como parada
changed-points = Puntos y notas mínimas

## El repaso

debrief-changed-rules = Este centro de trabajo ha cambiado estas reglas respecto a las de partida:
caution = Esto es práctica de aula. No autoriza a nadie a conducir. Para conducir una transpaleta real hacen falta formación práctica bajo supervisión y una evaluación en el lugar de trabajo. Las normas locales, las reglas de su empresa y el manual del fabricante van primero.
