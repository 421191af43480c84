namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// A run laid out for computing: steps in order, and for each step and cell the development reached and the hazard
/// met since the step before. None of it depends on the unknowns, so it is worked out once.
/// </summary>
internal sealed class LarvalProgram
{
    private const double ForecastStep = 0.5;
    private const double ForecastReach = 240;

    private LarvalProgram(LarvalRun run, IReadOnlyList<LarvalStep> steps, int tellings)
    {
        Run = run;
        Steps = [.. steps];
        Tellings = tellings;
        CellCount = run.Cells.Count;
        Vessels = [.. run.Cells.Select(cell => cell.Vessel)];
        Together =
        [
            .. Enumerable.Range(0, CellCount).GroupBy(cell => Vessels[cell]).Select(cells => cells.ToArray()),
        ];
        LogEnds = [.. run.Stages.Ends.Select(Math.Log)];
        Raises = Steps.Any(step => step.OnlyRaises);
        SharedErrorCv = Steps.Select(step => step.SharedErrorCv).DefaultIfEmpty(0).Max();
        DailyShockVariance = Math.Exp(run.Priors.DailyShock * run.Priors.DailyShock) - 1;
        var length = Steps.Length * CellCount;
        Ages = new double[length];
        AgeRoots = new double[length];
        Hazard = new double[length];
        EarlyHazard = new double[length];
        Elapsed = new double[Steps.Length];
        FutureDays = new double[Steps.Length];
        ShocksAt = new bool[Steps.Length];
        DeadSoFar = new CountTerm?[Steps.Length];
        LayOut();
        LayOutDead();
    }

    internal LarvalRun Run { get; }

    internal LarvalStep[] Steps { get; }

    internal int Tellings { get; }

    internal int CellCount { get; }

    internal int[] Vessels { get; }

    /// <summary>The cells of each vessel that holds any.</summary>
    internal int[][] Together { get; }

    internal double[] LogEnds { get; }

    /// <summary>Whether any entry can only raise the estimate.</summary>
    internal bool Raises { get; }

    /// <summary>Coefficient of variation of the error that numbers at arrival share.</summary>
    internal double SharedErrorCv { get; }

    /// <summary>Variance of a day's shock on the hazard, whose mean is one.</summary>
    internal double DailyShockVariance { get; }

    /// <summary>Reference days of development, by step and cell; negative where nobody lives yet.</summary>
    internal double[] Ages { get; }

    /// <summary>Their cube roots.</summary>
    internal double[] AgeRoots { get; }

    /// <summary>Weighted days of hazard since the step before.</summary>
    internal double[] Hazard { get; }

    /// <summary>The same, weighted by the fading early hazard.</summary>
    internal double[] EarlyHazard { get; }

    /// <summary>Days since the step before.</summary>
    internal double[] Elapsed { get; }

    /// <summary>Days that the step lies after now.</summary>
    internal double[] FutureDays { get; }

    /// <summary>Whether anything passes before the step.</summary>
    internal bool[] ShocksAt { get; }

    /// <summary>At each step that finds dead ones: that so many died at least until then.</summary>
    internal CountTerm?[] DeadSoFar { get; }

    /// <summary>Where the forecast of settlement begins, days of the run's clock.</summary>
    internal double ForecastFrom { get; private set; }

    /// <summary>Development of each cell at the days of the forecast: cell, then day.</summary>
    internal double[][] ForecastAges { get; private set; } = [];

    /// <summary>Hazard of each cell summed over the days of the forecast.</summary>
    internal double[][] ForecastHazard { get; private set; } = [];

    internal double ForecastDay(double place) => ForecastFrom + (place * ForecastStep);

    internal double PlaceOf(double day) => (day - ForecastFrom) / ForecastStep;

    /// <param name="run">The run.</param>
    /// <param name="tellings">Days to tell.</param>
    /// <param name="withRaising">Whether looks that can only raise the estimate are steps of it.</param>
    internal static LarvalProgram Of(LarvalRun run, IReadOnlyList<double> tellings, bool withRaising)
    {
        LarvalRun.Check(run);
        var steps = run
            .Events.SelectMany(happened => LarvalSteps.Of(run, happened))
            .Where(step => withRaising || !step.OnlyRaises)
            .ToList();
        for (var i = 0; i < tellings.Count; i++)
        {
            steps.Add(
                new(StepKind.Tell, Units.Finite.Required(tellings[i], nameof(tellings))) { Telling = i }
            );
        }

        // The order in which entries came must not matter.
        return new(
            run,
            [
                .. steps
                    .OrderBy(step => step.Day)
                    .ThenBy(step => step.Kind)
                    .ThenBy(step => step.Tag)
                    .ThenBy(step => step.Cells)
                    .ThenBy(step => step.From)
                    .ThenBy(step => step.To)
                    .ThenBy(step => step.Number)
                    .ThenBy(step => step.Share)
                    .ThenBy(step => step.Term?.Seen),
            ],
            tellings.Count
        );
    }

    private void LayOutDead()
    {
        var dead = 0.0;
        for (var s = 0; s < Steps.Length; s++)
        {
            if (Steps[s].Kind == StepKind.DeadFound)
            {
                dead += Steps[s].Number;
                DeadSoFar[s] = CountTerm.Of(new AtLeastEvidence((int)Math.Min(1e6, dead)));
            }
        }
    }

    private void LayOut()
    {
        var lives = new CellLife[CellCount];
        var day = Steps.Length > 0 ? Steps[0].Day : 0;
        for (var s = 0; s < Steps.Length; s++)
        {
            var step = Steps[s];
            Elapsed[s] = step.Day - day;
            FutureDays[s] = Math.Max(0, step.Day - Run.Now);
            for (var c = 0; c < CellCount; c++)
            {
                var place = (s * CellCount) + c;
                Ages[place] = -1;
                if (lives[c].Lives)
                {
                    var course = Run.Courses[Vessels[c]];
                    var hazard = course.HazardAt(step.Day) - course.HazardAt(day);
                    Hazard[place] = hazard;
                    EarlyHazard[place] = lives[c].EarlyShare(day, step.Day, Run.Priors.EarlyDays) * hazard;
                    Ages[place] = lives[c].Age(course, step.Day);
                    ShocksAt[s] |= hazard > 0;
                }
            }

            day = step.Day;
            Live(lives, step);
            if (step.Kind == StepKind.Arrive)
            {
                Ages[(s * CellCount) + step.To] = lives[step.To].Age(Run.Courses[Vessels[step.To]], day);
            }
        }

        for (var place = 0; place < Ages.Length; place++)
        {
            AgeRoots[place] = Math.Cbrt(Ages[place]);
        }

        LayOutForecast(lives);
    }

    private void Live(CellLife[] lives, LarvalStep step)
    {
        switch (step.Kind)
        {
            case StepKind.Arrive when !lives[step.To].Lives:
                lives[step.To] = CellLife.Begun(
                    Run.Courses[Vessels[step.To]],
                    step.Day,
                    step.Age,
                    step.Day - step.Age,
                    step.Strain
                );
                break;
            case StepKind.MoveShare
            or StepKind.MoveNumber when !lives[step.To].Lives && lives[step.From].Lives:
                var from = lives[step.From];
                lives[step.To] = CellLife.Begun(
                    Run.Courses[Vessels[step.To]],
                    step.Day,
                    from.Age(Run.Courses[Vessels[step.From]], step.Day),
                    from.Hatched,
                    from.Strain
                );
                break;
            default:
                break;
        }
    }

    private void LayOutForecast(CellLife[] lives)
    {
        ForecastFrom = Steps.Length > 0 ? Steps[0].Day : 0;
        var count =
            (int)Math.Ceiling((Math.Max(Run.Now, ForecastFrom) - ForecastFrom + ForecastReach) / ForecastStep)
            + 1;
        ForecastAges = new double[CellCount][];
        ForecastHazard = new double[CellCount][];
        for (var c = 0; c < CellCount; c++)
        {
            ForecastAges[c] = new double[count];
            ForecastHazard[c] = new double[count];
            if (lives[c].Lives)
            {
                var course = Run.Courses[Vessels[c]];
                for (var i = 0; i < count; i++)
                {
                    // Before a move the larvae lived elsewhere; what they had gone through then is spread evenly
                    // back to their hatching.
                    ForecastAges[c][i] = lives[c].Age(course, ForecastDay(i));
                    ForecastHazard[c][i] = course.HazardAt(ForecastDay(i));
                }
            }
        }
    }

    /// <summary>Since when a cell lives and how old it was then.</summary>
    private readonly record struct CellLife(
        bool Lives,
        double Since,
        double AgeThen,
        double CourseThen,
        double Hatched,
        double Strain
    )
    {
        internal static CellLife Begun(
            VesselCourse course,
            double day,
            double age,
            double hatched,
            double strain
        ) => new(true, day, age, course.DevelopmentAt(day), hatched, strain);

        internal double Age(VesselCourse course, double day) =>
            day >= Since
                ? AgeThen + course.DevelopmentAt(day) - CourseThen
                : Math.Max(0, AgeThen * (day - Hatched) / Math.Max(Since - Hatched, 1e-9));

        // Mean of exp(-age / early days) over the time, times the strain.
        internal double EarlyShare(double from, double to, double earlyDays)
        {
            if (to <= from)
            {
                return 0;
            }

            var begin = Math.Exp(-Math.Max(0, from - Hatched) / earlyDays);
            var end = Math.Exp(-Math.Max(0, to - Hatched) / earlyDays);
            return Strain * earlyDays * (begin - end) / (to - from);
        }
    }
}
