using Broodtide.Domain.Vessels;
using Broodtide.Science.Food;

namespace Broodtide.Workbench.Feeding;

/// <summary>What is known of a kind of culture before it was counted.</summary>
public static class CultureKnown
{
    /// <summary>Share of a surface covered from which a film feeds larvae. Practice, no source.</summary>
    public const double FilmReady = 0.5;

    // Rotifers a mL from which a culture is harvested. Practice, no source.
    private const double RotifersReady = 100;

    // Green water of no known alga: a hand is hardly seen through it. Practice, no source.
    private const double AnythingReady = 5e5;

    /// <summary>The alga of a kind; none for films, animals and what is not known.</summary>
    public static AlgaKind? Alga(CultureKind kind) =>
        kind switch
        {
            CultureKind.Tetraselmis or CultureKind.TetraselmisChui or CultureKind.TetraselmisSuecica =>
                AlgaKind.Find("tetraselmis"),
            CultureKind.Nannochloropsis => AlgaKind.Find("nannochloropsis"),
            CultureKind.Isochrysis => AlgaKind.Find("isochrysis"),
            CultureKind.Chaetoceros => AlgaKind.Find("chaetoceros"),
            CultureKind.ThalassiosiraPseudonana => AlgaKind.Find("thalassiosira"),
            CultureKind.ThalassiosiraWeissflogii => AlgaKind.Find("thalassiosira-weissflogii"),
            CultureKind.Phaeodactylum => AlgaKind.Find("phaeodactylum"),
            _ => null,
        };

    /// <summary>The belief before any count: cells or animals a mL, or the share of a surface covered for a film.</summary>
    public static CulturePrior Prior(CultureKind kind) =>
        Alga(kind) is { } alga ? CulturePrior.Of(alga)
        : kind is CultureKind.FilmDiatoms ? CulturePrior.OfFilm()
        : kind is CultureKind.Rotifers ? CulturePrior.OfRotifers()
        : CulturePrior.OfAnything();

    /// <summary>From which density, or cover, it can be used.</summary>
    public static double Ready(CultureKind kind) =>
        Alga(kind) is { } alga ? alga.HarvestFrom.PerMillilitre
        : kind is CultureKind.FilmDiatoms ? FilmReady
        : kind is CultureKind.Rotifers ? RotifersReady
        : AnythingReady;

    /// <summary>Whether brown water is healthy for it.</summary>
    public static bool MayBeBrown(CultureKind kind) =>
        Alga(kind) is { IsDiatom: true }
        || kind
            is CultureKind.FilmDiatoms
                or CultureKind.Isochrysis
                or CultureKind.Other
                or CultureKind.Rotifers;

    /// <summary>The cover that a look at a film stands for, with the standard deviation of its logarithm. Practice.</summary>
    internal static (double Cover, double LogSd)? Cover(FilmCover film) =>
        film switch
        {
            FilmCover.None => (0.01, 1),
            FilmCover.Thin => (0.15, 0.7),
            FilmCover.Thick or FilmCover.Peeling => (0.8, 0.3),
            _ => null,
        };
}
