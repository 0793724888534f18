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

plugging-ran-back = Retrocedió tras frenar a contramarcha
plugging-ran-back-what = Después de parar, la transpaleta avanzó { $measured } en el otro sentido. No pase de { $limit }.
plugging-ran-back-why = Quien está detrás ve que la transpaleta se detiene y no espera que vuelva hacia atrás.
plugging-ran-back-instead = Lleve el acelerador a punto muerto justo antes de que la transpaleta se detenga.

brake-arm-as-service = Usó el freno del brazo para una parada normal
brake-arm-as-service-what = El brazo entró en una zona de freno a { $measured } sin que nada lo pidiera. Hasta { $limit } está bien.
brake-arm-as-service-why = Este freno actúa de golpe. Lanza hacia delante al operador y a la carga, y se gasta para el día en que haga falta.
brake-arm-as-service-instead = Reduzca a contramarcha: gire el acelerador suavemente en contra del movimiento. Guarde el freno del brazo para emergencias y para estar parado.

throttle-snatched = Aceleró de golpe
throttle-snatched-what = El acelerador pasó de punto muerto a casi el máximo en { $measured }. Tómese al menos { $limit }.
throttle-snatched-why = Un tirón puede hacerle perder el equilibrio y desplazar la carga.
throttle-snatched-instead = Gírelo un poco, sienta cómo tira la transpaleta y siga girando.

emergency-late = Demasiado tarde en una emergencia
emergency-late-what = No redujo hasta { $measured } después de la señal, o de que alguien saliera al paso u otro vehículo entrara en su camino, o no redujo. El límite es { $limit }.
emergency-late-why = A velocidad de marcha, cada segundo cuesta la longitud de una transpaleta o más antes de empezar a frenar.
emergency-late-instead = No piense ni gire: primero el brazo. Suéltelo o bájelo hasta el fondo.

other-brake-used = Usó otro freno que el pedido
other-brake-used-what = La señal pedía un extremo del recorrido del brazo y usted paró de otra manera.
other-brake-used-why = Hacen falta los dos: soltar cuando está a punto de caerse, bajar cuando tiene las manos puestas. Con el susto solo funciona lo que se ha practicado.
other-brake-used-instead = Lea la tarea antes de salir y, parado, haga una vez con las manos el movimiento de freno.

missed-mark = Paró lejos de la marca
missed-mark-what = Paró a { $measured } de la marca. La tarea pide { $limit } o menos.
missed-mark-why = Quien no para en una línea del suelo no para delante de una estantería ni de un pie.
missed-mark-instead = Empiece a reducir antes, mire la marca y deje que la transpaleta llegue despacio.

forks-first-travel = Circuló con las horquillas por delante
forks-first-travel-what = Condujo { $measured } con las horquillas por delante. Hasta { $limit } cuenta como maniobra.
forks-first-travel-why = Así la transpaleta gira con el extremo lejano y las puntas llegan a los pies de la gente antes que usted. La norma solo cambia el extremo que va delante cuando una carga tapa la vista, y pide que la carga vaya detrás.
forks-first-travel-instead = Dé la vuelta y circule con la unidad motriz por delante.

forks-high-in-travel = Circuló con las horquillas altas
forks-high-in-travel-what = Las horquillas iban a { $measured } al circular. Llévelas a { $limit } o menos.
forks-high-in-travel-why = Una carga elevada se balancea más y puede caer. La ley lo dice para las pendientes: solo lo necesario para no tocar el suelo. En llano es buena práctica.
forks-high-in-travel-instead = Baje las horquillas antes de salir: que apenas libren el suelo.

arm-strength-turn = Giró el timón a la fuerza
arm-strength-turn-what = Lo giró con la fuerza de sus brazos: { $measured }. El límite es { $limit }.
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

horn-misused = Usó la bocina para nadie
horn-misused-what = La bocina sonó { $measured } sin motivo. Hasta { $limit } es una señal.
horn-misused-why = Una bocina que suena siempre no avisa a nadie. La gente deja de oírla y no sirve cuando hace falta.
horn-misused-instead = Una o dos señales cortas donde alguien las necesite: antes de arrancar, antes de un lugar sin visibilidad, cuando alguien no le ha visto.

tipped-over = La transpaleta volcó
tipped-over-what = La transpaleta volcó y la práctica terminó.
tipped-over-why = Un vuelco puede matar al operador.
tipped-over-instead = Reduzca antes de las curvas, lleve las horquillas bajas y no se acerque a los bordes.

person-struck = Golpeó a una persona
person-struck-what = La transpaleta o su carga tocó a alguien que iba a pie y avanzó { $measured } más. Más de { $limit } es un golpe, por lento que sea.
person-struck-why = Incluso al paso, una transpaleta rompe huesos: pesa muchas veces más que una persona y no cede.
person-struck-instead = Las personas van primero, siempre. Reduzca en cuanto vea a alguien y pare si no sabe qué va a hacer.

person-near-miss = Demasiado cerca de una persona
person-near-miss-what = Entre la transpaleta y alguien a pie quedaron { $measured }; deje { $limit } o más.
person-near-miss-what-slowing = Para no encontrarse con alguien a pie, la transpaleta tuvo que reducir { $measured }; procure que basten { $limit }.
person-near-miss-what-time = { $measured } después, la transpaleta y alguien a pie se habrían encontrado; deje { $limit } o más.
person-near-miss-why = La gente tropieza, se da la vuelta o retrocede sin mirar. El espacio que bastaba deja entonces de bastar.
person-near-miss-instead = Reduzca con tiempo, deje medio metro o más al lado y hágase notar.

person-not-given-way = No cedió el paso a una persona
person-not-given-way-what = Entró en un paso de peatones cuando alguien lo cruzaba o iba a hacerlo, o llegó adonde alguien acababa de estar: { $measured }, con un límite de { $limit }.
person-not-given-way-why = Quien camina por ahí se fía de que le deje pasar. Puede que ni mire, y quien tropieza o se da la vuelta queda debajo de la máquina.
person-not-given-way-instead = Mire lejos, sobre todo a los pasos de peatones. Si hay alguien en su camino o cerca, pare antes y espere a que se haya apartado bien.

stop-line-run = Se saltó una línea de alto
stop-line-run-what = Su velocidad más baja antes de la línea fue de { $measured }. Cuenta como parada a { $limit } o menos.
stop-line-run-why = La línea está ahí porque no se ve lo que viene. Rodar despacio no es ver.
stop-line-run-instead = Pare antes de la línea, mire a ambos lados y luego siga.

yield-not-slowed = No cedió como se pide
yield-not-slowed-what = Llegó a la línea de ceda el paso a { $measured }. Redúzcala a { $limit } antes de llegar.
yield-not-slowed-what-look = Antes de la línea de ceda el paso giró la cabeza { $measured } hacia el lado que menos miró. Gírela { $limit } o más hacia cada lado.
yield-not-slowed-why = Quien viene de lado tiene preferencia, y solo lo verá si mira.
yield-not-slowed-instead = Reduzca al paso antes de la línea, mire a izquierda y derecha y pare si viene algo.

no-horn-at-blind-spot = Sin bocina en un punto sin visibilidad
no-horn-at-blind-spot-what = Antes del punto sin visibilidad no sonó la bocina, o solo a { $measured } de él. Tóquela a { $limit } o más de distancia.
no-horn-at-blind-spot-why = Detrás de la esquina nadie lo ve llegar. La bocina es el único aviso que reciben.
no-horn-at-blind-spot-instead = Reduzca, toque la bocina unos metros antes de la esquina y escuche si responden.

too-fast-at-blind-spot = Demasiado rápido en un punto sin visibilidad
too-fast-at-blind-spot-what = Pasó por un punto sin visibilidad a { $measured }. Pase a { $limit } o menos.
too-fast-at-blind-spot-why = Lo que salga de ahí estará delante de usted antes de que pueda frenar.
too-fast-at-blind-spot-instead = Suelte acelerador mucho antes de la esquina y pase al paso, listo para parar.

not-looking = No miraba hacia donde iba
not-looking-what = Miró a { $measured } de su camino durante demasiado tiempo. Hasta { $limit } todavía se ve.
not-looking-why = En un segundo mirando a otro lado, la transpaleta recorre su propia longitud.
not-looking-instead = Mire hacia donde va la transpaleta, también con las horquillas por delante. Eche un vistazo y vuelva.

not-looked-before-entry = No miró a ambos lados
not-looked-before-entry-what = Entró tras mirar hacia un lado solo durante { $measured }. Mire a cada lado durante { $limit } o más, justo antes.
not-looked-before-entry-why = Quien viene de lado queda oculto hasta que usted llega. Solo lo descubre una mirada allí y entonces.
not-looked-before-entry-instead = En cada línea de alto, lugar sin visibilidad y paso de peatones: reduzca, mire a la izquierda, a la derecha y luego siga.

outruns-sight = Más rápido de lo que alcanzaba a ver
outruns-sight-what = Necesitaba { $measured } para parar y veía libres { $limit }.
outruns-sight-why = A quien esté justo fuera de la vista lo golpeará antes de poder parar.
outruns-sight-instead = Cuanto menos vea, más despacio: tiene que poder parar en lo que ve libre.

wet-not-slowed = Demasiado rápido sobre suelo mojado
wet-not-slowed-what = Condujo a { $measured } sobre suelo mojado. Hasta { $limit } está bien.
wet-not-slowed-why = Sobre mojado se alarga la frenada y la rueda motriz puede patinar al girar.
wet-not-slowed-instead = Reduzca antes de la zona mojada; en ella no frene ni gire con brusquedad.

high-speed-in-traffic = Alta velocidad entre otros
high-speed-in-traffic-what = La alta velocidad estaba activada, a { $measured }, donde hay más gente y vehículos.
high-speed-in-traffic-why = El botón es para carriles largos y libres. Entre otros le quita el tiempo que necesita.
high-speed-in-traffic-instead = No toque el botón si el carril no está libre y previsto para ello.

too-close-behind = Demasiado cerca del vehículo de delante
too-close-behind-what = Lo siguió a { $measured }. Deje { $limit }, unas tres longitudes de transpaleta.
too-close-behind-why = Si se para, usted necesita su segundo de reacción antes de empezar a frenar.
too-close-behind-instead = Retrásese hasta que quepan tres transpaletas en medio.

meeting-not-stopped = No paró ante un vehículo de frente
meeting-not-stopped-what = Seguía en marcha a { $measured } de un vehículo que venía de frente. Esté parado cuando queden { $limit }.
meeting-not-stopped-why = Los dos pueden apartarse hacia el mismo lado. Entonces quedan pies y piernas en medio.
meeting-not-stopped-instead = Si otro vehículo viene de frente por su carril, pare a una longitud de transpaleta, haga lo que haga el otro. Después acuerden quién pasa.

passed-truck-hidden = Adelantó en un lugar sin visibilidad
passed-truck-hidden-what = Adelantó a otro vehículo a { $measured } de un lugar sin visibilidad. Quédese detrás a menos de { $limit }.
passed-truck-hidden-why = Donde no se ve lo que viene no queda sitio al lado de un vehículo para apartarse.
passed-truck-hidden-instead = Quédese detrás hasta que el camino esté despejado.

wrong-first-reaction = Lo primero no fue frenar
wrong-first-reaction-what = A { $measured } de la sorpresa dio marcha atrás, se desvió o se bajó antes de frenar. Cuenta lo primero que se hace en { $limit }.
wrong-first-reaction-why = Desviarse o dar marcha atrás lo lleva a donde no ha mirado, y bajarse pone un pie junto a una transpaleta en marcha.
wrong-first-reaction-instead = Primero frene y quédese en la plataforma. Lo demás viene con la transpaleta parada.

wrong-way-command = Arrancó en el sentido equivocado
wrong-way-command-what = Desde parado avanzó { $measured } en el sentido equivocado. Hasta { $limit } es un respingo.
wrong-way-command-why = Una transpaleta que sale hacia el lado equivocado cae por un borde o va contra quien esté ahí.
wrong-way-command-instead = Antes de girar el acelerador, mire hacia donde quiere ir y piense hacia qué lado girarlo. Empiece con muy poco.

stepped-off-rolling = Se bajó en marcha
stepped-off-rolling-what = Dejó la plataforma a { $measured }. Bájese a { $limit } o menos.
stepped-off-rolling-why = El pie que toca el suelo se para; la transpaleta, no. Entre los dos se rompen los tobillos.
stepped-off-rolling-instead = Pare, frene y después el pie. Espere a que la transpaleta esté quieta.

walked-the-truck = Movió la transpaleta desde el suelo
walked-the-truck-what = La transpaleta se movió { $measured } sin nadie en la plataforma. Hasta { $limit } cuenta como un empujón.
walked-the-truck-why = A su lado, sus pies están por donde pasan las ruedas y las horquillas, y su brazo no llega al freno.
walked-the-truck-instead = Súbase, agárrese y condúzcala desde la plataforma, aunque sea un metro.

contact-lost = Arrancó sobre un solo pie
contact-lost-what = La transpaleta llegó a { $measured } mientras cambiaba de lado. No pase de { $limit } hasta estar bien apoyado.
contact-lost-why = Con un pie en el aire, una sacudida lo tira.
contact-lost-instead = Termine primero el paso: los dos pies y las dos manos en su sitio, y luego el acelerador.

body-gap-closing = Poco espacio para su cuerpo
body-gap-closing-what = Algo fijo llegó a { $measured } de la plataforma o del timón. Deje { $limit }.
body-gap-closing-why = Los pies, las manos y el timón también son transpaleta. Casi todos los heridos quedan atrapados contra algo que no se movía.
body-gap-closing-instead = Vigile el lado en el que va usted tanto como las horquillas. Donde se estrecha, vaya muy despacio o tome otra línea.

headroom = Bajo una viga demasiado baja
headroom-what = Una viga sobre la plataforma estaba { $measured } por debajo de su altura.
headroom-why = Las horquillas y la transpaleta pasan; su cabeza, no.
headroom-instead = Mire también hacia arriba. Si duda, pare y vaya por otro sitio.

unchecked-crossing = En el muelle sin comprobar
unchecked-crossing-what = Pasó sobre la placa del muelle a { $measured }; se permiten { $limit }.
unchecked-crossing-what-checks = Entró en el muelle con comprobaciones sin hacer, o con algo mal en él: { $measured }.
unchecked-crossing-why = Si el vehículo se mueve o la placa está suelta, la transpaleta y su operador caen entre el muelle y el vehículo.
unchecked-crossing-instead = Pare antes de la placa, mire cada comprobación y avise de lo que esté mal. Después pase recto y muy despacio.

false-report = Avisó de algo que no era así
false-report-what = Avisó de que algo estaba mal y no lo estaba. Avisos así en esta práctica: { $measured }.
false-report-why = Cada aviso para el trabajo y manda a alguien a mirar. Tras varios falsos ya no viene nadie.
false-report-instead = Mire primero cada punto y avise de lo que ha visto.

load-shifted = La carga se deslizó
load-shifted-what = Algo se deslizó { $measured } sobre las horquillas. Hasta { $limit } es normal.
load-shifted-why = Lo que empieza a deslizarse queda peor apoyado, y la próxima curva puede tirarlo.
load-shifted-instead = Arranque, gire y pare con más suavidad. Si se ha movido, pare y colóquela bien antes de seguir.

load-spilled = Perdió mercancía
load-spilled-what = Cajas caídas: { $measured }. Permitidas: { $limit }.
load-spilled-why = Una caja que cae hiere a quien esté al lado, y lo que queda en el suelo obliga a desviarse al siguiente.
load-spilled-instead = Tome las curvas y las paradas de modo que la carga no se mueva. Si algo cae, pare, señalice y recójalo.

over-capacity = Más de lo que puede llevar
over-capacity-what = La carga es el { $measured } de lo que permite la placa.
over-capacity-why = Por encima de su placa la transpaleta frena peor y se rompe lo que nadie espera.
over-capacity-instead = Lea la placa y la etiqueta de la carga antes de tomarla. Si pesa demasiado, déjela y avise.

loose-object-run-over = Pasó por encima de un objeto suelto
loose-object-run-over-what = Una rueda pasó por encima de algo que estaba en el suelo, a { $measured }.
loose-object-run-over-why = Una rueda pequeña se clava, trepa o resbala: usted y la carga salen despedidos.
loose-object-run-over-instead = Mire también el suelo. Pare, bájese y retírelo.

forks-dragged = Arrastró las horquillas
forks-dragged-what = Las horquillas iban a { $measured } al circular. Llévelas a { $limit } o más.
forks-dragged-why = Se enganchan en juntas y placas, y la transpaleta se para de golpe; usted, no.
forks-dragged-instead = Suba las horquillas lo justo para librar el suelo antes de salir.

pallet-pushed = Empujó un palé
pallet-pushed-what = La transpaleta empujó un palé { $measured } por el suelo. Hasta { $limit } es un roce.
pallet-pushed-why = Un palé empujado se rompe, y detrás puede haber una estantería o un pie.
pallet-pushed-instead = Pare antes del palé, alinéese y entre despacio con las horquillas lo bastante bajas.

set-down-off = Dejó el palé fuera de las marcas
set-down-off-what = El palé quedó { $measured } fuera de sus marcas. Hasta { $limit } está bien.
set-down-off-why = Lo que sobresale lo golpea el siguiente, y lo que queda torcido no se puede tomar recto.
set-down-off-instead = Alinéese con tiempo, entre recto, pare, mire y solo entonces baje.

load-not-upgrade = La carga iba cuesta abajo
load-not-upgrade-what = En una pendiente del { $measured } la carga iba en el lado de abajo. Por encima del { $limit } tiene que ir cuesta arriba.
load-not-upgrade-why = Por debajo de usted puede resbalar de las horquillas, y usted va detrás.
load-not-upgrade-instead = Con carga, lleve las horquillas hacia arriba, tanto al subir como al bajar.

grade-too-fast = Demasiado rápido en una pendiente
grade-too-fast-what = Circuló a { $measured } en una pendiente. Hasta { $limit } es despacio.
grade-too-fast-why = En una pendiente cada parada es más larga y el peso tira de la transpaleta.
grade-too-fast-instead = Reduzca antes de que empiece la pendiente y siga despacio hasta que termine.

load-hides-view = Condujo con la carga tapando la vista
load-hides-view-what = Condujo { $measured } con la carga tapando el camino. Hasta { $limit } cuenta como maniobra.
load-hides-view-why = A quien esté detrás de la carga lo empuja antes de que usted lo sepa.
load-hides-view-instead = Si no ve por encima de la carga, llévela detrás: la unidad motriz por delante.

plugging-jerk = Pasó a contramarcha con un tirón
plugging-jerk-what = Al pasar a contramarcha o al salir de ella, la transpaleta dio un tirón de { $measured }. No pase de { $limit }.
plugging-jerk-why = Un tirón pone a deslizarse una carga que una fuerza constante dejaría en su sitio, y puede hacerle perder el equilibrio.
plugging-jerk-instead = Pase despacio por punto muerto, siga girando el acelerador poco a poco y aflójelo antes de que la transpaleta se detenga.

unattended = Dejó la transpaleta desatendida
unattended-what = Estuvo fuera de la transpaleta sin dejarla segura: { $measured } de tiempo o de distancia, con un límite de { $limit }. Fuera de la vista desde donde bajó no puede estar nunca.
unattended-why = Alguien roza el acelerador o tropieza con las horquillas y no hay nadie para pararla.
unattended-instead = Horquillas abajo, acelerador en punto muerto, llave quitada y con usted.

left-unsecured = Dejó la transpaleta sin asegurar
left-unsecured-what = Estuvo { $measured } fuera de la plataforma sin asegurar la transpaleta. Hasta { $limit } es un momento.
left-unsecured-why = Una transpaleta que puede moverse, o que está donde no se ve, hiere a alguien cuando no hay nadie para pararla.
left-unsecured-instead = Antes de bajar: horquillas abajo, acelerador en punto muerto, freno puesto, en llano y lejos de esquinas y salidas.

parked-in-the-way = Aparcó en medio del paso
parked-in-the-way-what = La transpaleta quedó parada en un paso de peatones durante { $measured }, sin nadie a bordo o con alguien esperando para cruzar, o hasta el final. Hasta { $limit } es una parada corta.
parked-in-the-way-why = La gente la rodea por el carril de los demás vehículos.
parked-in-the-way-instead = Aparque bien a la primera: fuera de pasos, pasillos y salidas.

## Aciertos

bad-truck-taken = Usó una transpaleta insegura
bad-truck-taken-what = Recorrió { $measured } con una transpaleta que no debe circular; basta { $limit } para haberla tomado.
bad-truck-taken-why = Lo que le pasa no mejora al conducirla. Una máquina insegura por cualquier motivo se retira del servicio.
bad-truck-taken-instead = Márquela fuera de servicio y avise, por mucha prisa que haya. Si lo nota en marcha: pare, bájese y avise.

defect-missed = Se le pasó en la inspección
defect-missed-what = A este punto le pasaba algo y usted no avisó.
defect-missed-why = Lo que se pasa por alto va con usted y con quien tome la máquina después.
defect-missed-instead = Mire de cerca cada punto, desde cada lado que se vea, y pruebe lo que se puede probar. Tras un hallazgo siga con el resto.

not-checked = Punto sin revisar
not-checked-what = No miró ni probó este punto, o no lo contestó.
not-checked-why = Una lista con huecos no dice nada de los huecos, y la firma vale por toda ella.
not-checked-instead = Recorra la lista hasta el final antes de tomar la máquina.

tagged-out-sound = Retiró una máquina que puede circular
tagged-out-sound-what = Dejó fuera de servicio una transpaleta que puede circular.
tagged-out-sound-why = Las máquinas retiradas sin motivo enseñan a no hacer caso de la etiqueta.
tagged-out-sound-instead = Retire lo que no debe circular. De lo que puede circular se avisa o se anota en la hoja.

speed-settings-touched = Tocó los ajustes de la máquina
speed-settings-touched-what = Pulsó botones que cambian los ajustes propios de la máquina.
speed-settings-touched-why = Una máquina que acelera, frena o gira de otro modo que el esperado hace daño a alguien.
speed-settings-touched-instead = Déjelos para quien da servicio a la máquina, y avise si alguien los cambió.

clean-plug = Parada limpia a contramarcha
clean-plug-what = Paró a { $measured } de la marca; hasta { $limit } es una parada limpia. La transpaleta no retrocedió.
clean-plug-why = Quien sabe parar en una línea sabe parar por una persona.
clean-plug-instead = Siga así: suelte, gire el acelerador en contra del movimiento y vuelva a punto muerto justo antes de que se detenga.

quick-emergency-stop = Parada de emergencia rápida
quick-emergency-stop-what = El brazo estaba en la zona de freno correcta { $measured } después de la señal; hasta { $limit } es rápido.
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

gave-way = Cedió el paso
gave-way-what = Se detuvo a { $measured } del paso y siguió cuando quedó libre; cuenta hasta { $limit }.
gave-way-why = La gente aprende que puede fiarse de usted, y eso hace más seguro el camino de todos.
gave-way-instead = Siga así y, mientras espera, mire si viene alguien más.

full-stop = Parada completa en la línea
full-stop-what = Se detuvo antes de la línea: { $measured }; hasta { $limit } cuenta como parado.
full-stop-why = Parado se ve y se oye lo que en marcha se escapa.
full-stop-instead = Siga así y mire a ambos lados mientras está parado.

horn-at-blind-spot = Bocina en un punto sin visibilidad
horn-at-blind-spot-what = Tocó la bocina a { $measured } del punto sin visibilidad; a { $limit } o más es a tiempo.
horn-at-blind-spot-why = Quien estuviera detrás de la esquina sabía que usted venía.
horn-at-blind-spot-instead = Siga así y vaya despacio de todos modos: no todos oyen.

quick-reaction = Frenó con rapidez
quick-reaction-what = Frenó { $measured } después de la sorpresa; hasta { $limit } es rápido.
quick-reaction-why = Un segundo ganado a velocidad de marcha es una longitud de transpaleta.
quick-reaction-instead = Siga así: primero el freno y después pensar.

refused-unsafe-dock = Se negó a usar un muelle inseguro
refused-unsafe-dock-what = Vio que algo estaba mal en el muelle y avisó antes de entrar.
refused-unsafe-dock-why = Decir que no es parte del trabajo. Aquí lo libró de caer en el hueco.
refused-unsafe-dock-instead = Siga así, también cuando otros tengan prisa.

defect-found = Encontrado en la inspección
defect-found-what = Miró o probó este punto y avisó de lo que le pasaba.
defect-found-why = Para eso es la inspección.
defect-found-instead = Siga así, también cuando pasen semanas sin encontrar nada.

bad-truck-refused = Se negó a usar una máquina insegura
bad-truck-refused-what = No siguió con una transpaleta que no debe circular.
bad-truck-refused-why = Decir que no es parte del trabajo.
bad-truck-refused-instead = Siga así, también cuando otros tengan prisa.

clean-set-down = Palé bien colocado
clean-set-down-what = El palé quedó a { $measured } de sus marcas; hasta { $limit } está bien colocado.
clean-set-down-why = Quien lo tome después podrá entrar recto.
clean-set-down-instead = Siga así, también con cargas más altas.

full-task = Tarea completa
full-task-what = Hizo la tarea completa en { $measured }.
full-task-why = Cada paso se condujo como se pedía.
full-task-instead = Hágala otra vez con más suavidad. La velocidad viene sola.

clean-lap = Todas las puertas sin faltas
clean-lap-what = Pasó por todas las puertas de esta vuelta o tramo sin faltas, en { $measured }.
clean-lap-why = Una vez puede ser suerte. Varias seguidas son habilidad.
clean-lap-instead = Siga así la próxima vez.

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

because-of = Vino de esto: { $cause }. De las dos faltas solo la más grave quita puntos.
just-before = En el segundo anterior: hasta { $speed }, { $side } de lado, { $along } a lo largo, horquillas a { $height }.

## Lo que cambió un centro de trabajo

changed-again-after = Cuándo vuelve a contar la misma falta
changed-cause-within = Cuánto después de una falta puede venir otra de ella
changed-rest-speed = Qué cuenta como parado: velocidad
changed-rest-for = Qué cuenta como parado: tiempo
changed-stretch = Longitud del tramo que cuenta como una ocasión
changed-turn = Qué cuenta como giro
changed-stop-from = Qué cuenta como parada
changed-near-person = Qué cuenta como una persona cerca: distancia
changed-ready-from = Con qué seguridad hay que mostrar una habilidad para que cuente como preparada
changed-called-near = Cuándo alguien cerca obliga a frenar: distancia
changed-called-soon = Cuándo alguien delante obliga a frenar: tiempo
changed-called-out = Cuándo alguien que se cruza obliga a frenar: distancia
changed-called-for = Cuánto dura lo que obliga a frenar
changed-steps-on = Desde qué distancia alguien está por entrar en un cruce
changed-check-reach = Desde qué distancia se comprueba algo en el muelle
changed-check-time = Cuánto hay que mirar cada comprobación del muelle
changed-check-aside = Con qué ángulo se mira cada comprobación del muelle
changed-look-closer = Cuánto tiempo se mira cada punto de la máquina
changed-remembers = Cuánto recuerda el camino quien mira a un lado
changed-looks-along = Qué cuenta como mirar hacia el camino
changed-time-ratio = Qué tan lento puede ser el equipo en una prueba previa
changed-pauses = Cuántas pausas admite una prueba previa
changed-spell-metres = Tras cuánto camino cuenta otra vez una falta que dura
changed-spell-seconds = Tras cuánto tiempo cuenta otra vez una falta que dura
changed-counts-from = Desde cuánto camino cuenta una práctica interrumpida o a la que se le acabó el tiempo
changed-notices = Dentro de qué ángulo de la mirada se advierte a alguien
changed-notices-moving = A quién se advierte más al lado: velocidad
changed-notices-after = Cuánto más tarde se advierte a quien está muy al lado
changed-approach = Hasta dónde se mira al lado por si viene alguien
changed-critical-total = Puntos en total que deja una observación crítica
changed-majors-of-one-code = Cuántas veces puede darse una falta grave en una prueba previa
changed-points = Puntos y notas mínimas
changed-zones = Zonas de velocidad propias del centro
changed-notes = Frases propias del centro junto a las faltas

## Cuánto falta

readiness-ready = Preparación suficiente
readiness-practise-more = Conviene practicar más
readiness-not-enough-shown = Aún no se ha mostrado lo suficiente

## La prueba previa

pretest-on-single = Hecha con la transpaleta simple
pretest-on-double = Hecha con la transpaleta doble
pretest-passed = Prueba previa superada
pretest-not-passed = Prueba previa no superada
pretest-incomplete = Prueba previa sin terminar
pretest-why-critical = Parte { $part }: { $what }. Una sola observación así basta para no superarla.
pretest-why-major-again = { $what }: se encontró { $times } veces en todas las partes. Más de { $limit } es demasiado para una falta grave.
pretest-why-not-done = La parte { $part } no se llevó hasta el final: { $ending }.
pretest-why-out-of-time = Parte { $part }: se le acabó el tiempo a los { $seconds } s. Queda hecha y no aprobada, con lo que se mostró hasta entonces.
pretest-why-skill-below = { $skill }: { $points } puntos, y se piden { $limit }.
pretest-why-skill-not-shown = { $skill }: no se demostró nada.
pretest-why-total-below = En total { $points } puntos, y se piden { $limit }.
pretest-why-pauses = Número de pausas: { $pauses }; se permite { $limit }.
pretest-why-missing = Falta por conducir la parte { $part }.
pretest-why-too-slow = Parte { $part }: el tiempo pasó demasiado despacio, al { $ratio } % del tiempo real; se pide al menos el { $limit } %.

## El repaso

debrief-changed-rules = Este centro de trabajo ha cambiado estas reglas respecto a las de partida:
caution = Esto es práctica de aula. No autoriza a nadie a conducir. Para conducir una transpaleta real hacen falta formación práctica bajo supervisión y una evaluación en el lugar de trabajo. Las normas locales, las reglas de su empresa y el manual del fabricante van primero.
