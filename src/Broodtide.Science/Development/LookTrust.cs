using Broodtide.Units;

namespace Broodtide.Science.Development;

/// <summary>
/// How far a keeper's looks can be trusted. All are assumptions without a source, chosen so that one wrong look
/// never makes a forecast impossible; a value of zero switches the doubt off.
/// </summary>
public sealed record LookTrust
{
    /// <summary>The customary doubt.</summary>
    public static LookTrust Customary { get; } = new();

    /// <summary>Every look is taken as exactly true. For comparison with closed forms only.</summary>
    public static LookTrust Blind { get; } =
        new()
        {
            Misread = 0,
            Worthless = 0,
            SaddleMisread = 0,
            CarriesAfterFirstHatch = 0,
            NotesPale = 0,
            WrongEntry = 0,
            EmptyMisread = 0,
        };

    /// <summary>Chance that one look at the eyes or the colour is misread, 0 to 0.5.</summary>
    public double Misread { get; init; } = 0.03;

    /// <summary>Chance that all looks of a kind (eyes, or colour) by this keeper say nothing, 0 to 1.</summary>
    public double Worthless { get; init; } = 0.03;

    /// <summary>Chance that a saddle seen is none (an old one, the gut, remains), 0 to 0.5.</summary>
    public double SaddleMisread { get; init; } = 0.15;

    /// <summary>
    /// Chance that a female seen at once after the first larvae still carries some eggs, 0 to 1. Early trickles
    /// and second pulses are reported by keepers; the figure is an assumption.
    /// </summary>
    public double CarriesAfterFirstHatch { get; init; } = 0.2;

    /// <summary>Days in which that chance falls to 1/e.</summary>
    public double CarriesAfterFirstHatchDays { get; init; } = 0.5;

    /// <summary>Chance that this keeper writes down pale eggs whenever they are seen, 0 to 1.</summary>
    public double NotesPale { get; init; } = 0.5;

    /// <summary>Chance that a keeper who notes pale eggs overlooks them in one look, 0 to 1.</summary>
    public double OverlooksPale { get; init; } = 0.3;

    /// <summary>Chance that a plain entry (empty, still carried, larvae) is wrong, 0 to 0.5.</summary>
    public double WrongEntry { get; init; } = 0.005;

    /// <summary>Chance that an empty-looking female was already carrying, 0 to 0.5.</summary>
    public double EmptyMisread { get; init; } = 0.02;

    /// <summary>
    /// Where no empty look is known and the age is not said to be unknown: chance that the eggs were noticed early.
    /// </summary>
    public double NoticedEarly { get; init; } = 0.35;

    /// <summary>Mean days from spawning to notice for eggs that are noticed early.</summary>
    public double NoticedEarlyDays { get; init; } = 3;

    internal void Check()
    {
        Finite.Within(Misread, 0, 0.5);
        Finite.Within(Worthless, 0, 1);
        Finite.Within(SaddleMisread, 0, 0.5);
        Finite.Within(CarriesAfterFirstHatch, 0, 1);
        Finite.Within(CarriesAfterFirstHatchDays, 0.01, 30);
        Finite.Within(NotesPale, 0, 1);
        Finite.Within(OverlooksPale, 0, 1);
        Finite.Within(WrongEntry, 0, 0.5);
        Finite.Within(EmptyMisread, 0, 0.5);
        Finite.Within(NoticedEarly, 0, 1);
        Finite.Within(NoticedEarlyDays, 0.1, 60);
    }
}
