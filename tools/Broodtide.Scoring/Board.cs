using System.Globalization;
using Broodtide.Science.Development;

namespace Broodtide.Scoring;

/// <summary>Forecasts runs, compares each with its truth and adds up.</summary>
public sealed class Board(EmbryoPrior prior)
{
    /// <summary>What may fall outside the window.</summary>
    public const double Alpha = 0.1;

    private readonly List<(double Low, double High, double Truth)> _windows = [];
    private readonly List<(double Low, double High, double Truth)> _plain = [];

    public const string Header = "run,q05,q50,q95,first_hatch,covered,note";

    public int Scored => _windows.Count;

    public int Covered => CountCovered(_windows);

    public double IntervalScore => Mean(_windows, Score);

    public double PlainIntervalScore => Mean(_plain, Score);

    public double Skill => 1 - (IntervalScore / PlainIntervalScore);

    /// <summary>Forecasts one folder; gives its line.</summary>
    /// <exception cref="FileTroubleException">A file is missing or cannot be read.</exception>
    public string Take(string folder)
    {
        var evidence = EventsFile.Read(Path.Combine(folder, "events.csv"));
        var truth = TruthFile.FirstHatch(Path.Combine(folder, "truth.csv"));
        var forecast = HatchForecast.From(prior, evidence);
        var days = forecast.Days;
        string[] notes =
        [
            .. forecast.IsOffMother ? ["off the mother"] : Array.Empty<string>(),
            .. forecast.IsContradictory ? ["contradictory"] : Array.Empty<string>(),
            .. forecast.IsRough ? ["rough"] : Array.Empty<string>(),
            .. truth is null ? ["no first_hatch, not scored"] : Array.Empty<string>(),
        ];
        var covered = "";
        if (truth is { } hatch)
        {
            var plain = PlainForecast.From(evidence);
            _windows.Add((days.Low, days.High, hatch));
            _plain.Add((plain.Low, plain.High, hatch));
            covered = days.Contains(hatch) ? "yes" : "no";
        }

        return string.Create(
            CultureInfo.InvariantCulture,
            $"{Path.GetFileName(folder)},{days.Low:0.00},{days.Middle:0.00},{days.High:0.00},{truth:0.00},{covered},{string.Join("; ", notes)}"
        );
    }

    public IEnumerable<string> Summary() =>
        Scored == 0
            ? ["no run has a first_hatch: nothing scored"]
            :
            [
                Line($"covered {Covered} of {Scored} ({100.0 * Covered / Scored:0.0} %)"),
                Line($"mean width {Mean(_windows, Width):0.00} d"),
                Line($"interval score {IntervalScore:0.00} d (alpha {Alpha})"),
                Line(
                    $"plain mean and sd: covered {CountCovered(_plain)} of {Scored}, mean width {Mean(_plain, Width):0.00} d, interval score {PlainIntervalScore:0.00} d"
                ),
                Line($"skill {Skill:0.000}"),
            ];

    /// <summary>Interval score (Gneiting and Raftery 2007, eq. 43), in days; smaller is better.</summary>
    public static double Score((double Low, double High, double Truth) window) =>
        Width(window)
        + (2 / Alpha * Math.Max(0, window.Low - window.Truth))
        + (2 / Alpha * Math.Max(0, window.Truth - window.High));

    private static double Width((double Low, double High, double Truth) window) => window.High - window.Low;

    private static int CountCovered(List<(double Low, double High, double Truth)> windows) =>
        windows.Count(w => w.Truth >= w.Low && w.Truth <= w.High);

    private static double Mean(
        List<(double Low, double High, double Truth)> windows,
        Func<(double Low, double High, double Truth), double> of
    ) => windows.Count == 0 ? double.NaN : windows.Average(of);

    private static string Line(FormattableString text) => FormattableString.Invariant(text);
}
