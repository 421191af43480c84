using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Scoring;

/// <summary>
/// Invents vessels from what the twin believes, lets it read them as a keeper would, and looks how often the truth of the
/// next day lies inside its 90 % intervals. Truth and twin share their equations: this scores the learning, not the model.
/// </summary>
public sealed class VesselBoard
{
    private const int Members = 200;
    private const int FirstScored = 5;

    private static readonly VesselQuantity[] Scored =
    [
        VesselQuantity.CellsPerMillilitre,
        VesselQuantity.Tan,
        VesselQuantity.Nitrite,
        VesselQuantity.Nitrate,
        VesselQuantity.Oxygen,
        VesselQuantity.PHNbs,
        VesselQuantity.UnionisedAmmonia,
    ];

    private readonly Dictionary<VesselQuantity, List<(bool Inside, double Narrowing)>> _told =
        Scored.ToDictionary(quantity => quantity, _ => new List<(bool, double)>());

    /// <summary>What the twin believes; planted wrong to see that the board turns red.</summary>
    public VesselPriors Believed { get; init; } = VesselPriors.Usual;

    /// <summary>Readings that the members could not explain, of all.</summary>
    public (int Odd, int All) Readings { get; private set; }

    /// <summary>What is scored.</summary>
    public IReadOnlyList<VesselQuantity> Quantities => Scored;

    /// <summary>Share of the truths inside the intervals, all quantities together.</summary>
    public double Covered => _told.Values.SelectMany(rows => rows).Average(row => row.Inside ? 1.0 : 0);

    /// <summary>Share of the truths of one quantity inside the intervals.</summary>
    public double CoveredOf(VesselQuantity quantity) => _told[quantity].Average(row => row.Inside ? 1.0 : 0);

    /// <summary>One line for each quantity.</summary>
    public IEnumerable<string> Summary()
    {
        foreach (var quantity in Scored)
        {
            var rows = _told[quantity];
            var narrowing = rows.Select(row => row.Narrowing).Order().ElementAt(rows.Count / 2);
            yield return FormattableString.Invariant(
                $"{quantity}: covered {100 * CoveredOf(quantity):0.0} % of {rows.Count}, median width {narrowing:0.00} of that without readings"
            );
        }

        yield return FormattableString.Invariant(
            $"all: covered {100 * Covered:0.0} %; {Readings.Odd} of {Readings.All} readings not explained"
        );
    }

    /// <summary>Invents one vessel, lets it be read, and keeps how the forecasts did.</summary>
    /// <param name="seed">Tells the vessel, its keeper and the errors.</param>
    /// <param name="days">How long, 7 or more.</param>
    public void Take(int seed, int days)
    {
        var random = new Random(seed);
        var scene = Invent(random, days);
        var start = new VesselStart();
        var truth = VesselTwin
            .Forward(
                VesselEnsemble.Draw(scene, start, VesselPriors.Usual, 2, (ulong)(1000 + seed)),
                scene,
                24 * days
            )
            .Traces;
        var members = VesselEnsemble.Draw(scene, start, Believed, Members);
        var unread = VesselTwin.Forward(members, scene, 24 * days).Traces;
        for (var day = 0; day < days; day++)
        {
            if (day >= FirstScored)
            {
                Score(VesselTwin.Forward(members, scene, 24).Traces, truth, unread, day);
            }

            foreach (var reading in ReadingsOf(day, truth, random).OrderBy(reading => reading.Hour).ToList())
            {
                if (reading.Hour > members.Hour)
                {
                    members = VesselTwin.Forward(members, scene, reading.Hour - members.Hour).End;
                }

                var update = VesselUpdating.With(members, reading, scene);
                members = update.Members;
                Readings = (Readings.Odd + (update.IsExplained ? 0 : 1), Readings.All + 1);
            }

            members = VesselTwin.Forward(members, scene, (24 * (day + 1)) - members.Hour).End;
        }
    }

    private void Score(VesselTraces told, VesselTraces truth, VesselTraces unread, int day)
    {
        foreach (var quantity in Scored)
        {
            Interval interval,
                before;
            double happened;
            if (quantity == VesselQuantity.Oxygen)
            {
                // The lowest of the day: what matters at night.
                interval = MemberQuantiles.Of([.. told.Extremes(quantity, 1, 24, highest: false)]);
                before = MemberQuantiles.Of([
                    .. unread.Extremes(quantity, (24 * day) + 1, (24 * day) + 24, highest: false),
                ]);
                happened = Enumerable.Range((24 * day) + 1, 24).Min(place => truth.Value(quantity, place, 0));
            }
            else
            {
                interval = told.Quantiles(quantity, 24);
                before = unread.Quantiles(quantity, 24 * (day + 1));
                happened = truth.Value(quantity, 24 * (day + 1), 0);
            }

            _told[quantity]
                .Add((interval.Contains(happened), interval.Width / Math.Max(1e-12, before.Width)));
        }
    }

    private static VesselScene Invent(Random random, int days)
    {
        var litres = 2 + (8 * random.NextDouble());
        var celsius = 22 + (6 * random.NextDouble());
        var salinity = 17 + (17 * random.NextDouble());
        var light = 40 + (120 * random.NextDouble());
        var air = random.Next(2) == 0 ? AirFlow.None : AirFlow.Gentle;
        var larvae = 30 * litres * random.NextDouble();
        var ration = random.NextDouble() < 0.3 ? 0 : 2 * random.NextDouble();
        List<VesselEvent> events =
        [
            new VesselEvent.AlgaeGiven(8, 1000 * litres * (2e4 + (8e4 * random.NextDouble()))),
        ];
        for (var day = 1; day < days; day++)
        {
            var fed = ration * (random.Next(15) == 0 ? 5 : 1);
            if (fed > 0)
            {
                events.Add(
                    new VesselEvent.Fed(
                        (24 * day) + 18,
                        Mass.FromMilligrams(fed * litres),
                        FeedComposition.Yeast
                    )
                );
            }

            if (day % 7 == 6)
            {
                events.Add(
                    new VesselEvent.Siphoned((24 * day) + 10, Probability.FromFraction(random.NextDouble()))
                );
                var changed = Volume.FromLitres(litres * 0.25);
                events.Add(
                    new VesselEvent.WaterMoved((24 * day) + 10, changed, changed, IncomingWater.Clean)
                );
            }
        }

        return new()
        {
            Site = new()
            {
                DepthMetres = 0.1 + (0.15 * random.NextDouble()),
                FilterSquareCentimetres = random.Next(2) * 300,
                RipeDays = random.Next(3) == 0 ? 40 : 0,
            },
            WaterAtStart = Volume.FromLitres(litres),
            Events = [.. events],
            Hours =
            [
                .. Enumerable
                    .Range(0, 24 * days)
                    .Select(hour => new VesselHour
                    {
                        Water = Volume.FromLitres(litres),
                        Salinity = Salinity.FromPractical(salinity),
                        Temperature = Temperature.FromCelsius(celsius),
                        LightMicromoles = hour % 24 is >= 7 and < 21 ? light : 0,
                        Air = air,
                        Larvae = Interval.FromPoints(0.7 * larvae, larvae, 1.3 * larvae),
                        LarvaDryMicrograms = 30 + (hour / 24.0),
                    }),
            ],
        };
    }

    private static IEnumerable<VesselReading> ReadingsOf(int day, VesselTraces truth, Random random)
    {
        if (day % 2 == 1)
        {
            yield return Read(6, VesselQuantity.Oxygen, 0.3, 0);
            yield return Read(17, VesselQuantity.Tan, 0.05, 0.25);
            yield return Read(17, VesselQuantity.PHNbs, 0.1, 0);
        }

        if (day % 7 == 3)
        {
            yield return Read(17, VesselQuantity.Nitrite, 0.02, 0.25);
            yield return Read(17, VesselQuantity.Nitrate, 2, 0.3);
        }

        if (day % 4 == 2)
        {
            yield return Read(9, VesselQuantity.CellsPerMillilitre, 300, 0.2);
        }

        if (day % 3 == 0)
        {
            // As a keeper of this board sees it: Tetraselmis from 10,000, 50,000 and 250,000/mL, give or take a factor of 2.5.
            var cells =
                truth.Value(VesselQuantity.CellsPerMillilitre, (24 * day) + 12, 0)
                * Math.Exp(0.9 * Normal(random));
            yield return new VesselReading.ColourSeen(
                (24 * day) + 12,
                cells switch
                {
                    < 1e4 => WaterColour.Clear,
                    < 5e4 => WaterColour.Tinted,
                    < 2.5e5 => WaterColour.Green,
                    _ => WaterColour.Deep,
                }
            );
            var film =
                truth.Value(VesselQuantity.FilmShare, (24 * day) + 12, 0) * Math.Exp(0.8 * Normal(random));
            yield return new VesselReading.FilmSeen(
                (24 * day) + 12,
                film switch
                {
                    < 0.05 => FilmCover.None,
                    < 0.4 => FilmCover.Thin,
                    _ => FilmCover.Thick,
                }
            );
        }

        VesselReading Read(int hour, VesselQuantity quantity, double sd, double share)
        {
            var at = (24 * day) + hour;
            var value = truth.Value(quantity, at, 0);
            var read = value + (Normal(random) * Math.Sqrt((sd * sd) + (share * share * value * value)));
            return VesselReading.Measured.AtHome(at, quantity, Math.Max(0, read));
        }
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
