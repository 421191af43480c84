using Broodtide.Units;

namespace Broodtide.Workbench.Dossiers;

/// <summary>What a keeper chose to give away with a dossier. Left as it is, nothing tells who, where, or in whose words.</summary>
public sealed record DossierChoice
{
    /// <summary>What the dossier is called; made from species and year if left out.</summary>
    public string? Title { get; init; }

    /// <summary>Whether names stay: of people, animals, vessels, instruments and runs.</summary>
    public bool Names { get; init; }

    /// <summary>Whether notes, reasons and captions stay. They may hold anybody's name.</summary>
    public bool Notes { get; init; }

    /// <summary>Whether time zones stay and what a camera wrote into photos that were kept whole.</summary>
    public bool Place { get; init; }

    /// <summary>Whether photos go with it.</summary>
    public bool Photos { get; init; } = true;

    /// <summary>Licence, by its SPDX identifier; none says that none was chosen.</summary>
    public string? Licence { get; init; }

    /// <summary>Who is to be named as its author; nobody if left out.</summary>
    public string? By { get; init; }

    /// <summary>The author's ORCID; none if left out.</summary>
    public string? Orcid { get; init; }

    /// <summary>Whether entries go as they were sealed: nothing is left out of them.</summary>
    public bool IsWhole => Names && Notes && Place;

    /// <summary>The choice in its proper spelling, or what is wrong with it.</summary>
    public Parsed<DossierChoice> Checked()
    {
        var licence = Licence is { } id ? Dossiers.Licence.Find(id) : null;
        if (Licence is not null && licence is null)
        {
            return Parsed<DossierChoice>.No(
                "licence-not-on-the-list",
                new("typed", Licence),
                new("allowed", string.Join(", ", Dossiers.Licence.All.Select(one => one.Id)))
            );
        }

        if (Orcid is not null && string.IsNullOrWhiteSpace(By))
        {
            return Parsed<DossierChoice>.No("orcid-without-author", new Argument("typed", Orcid));
        }

        var orcid = Orcid is { } typed ? Dossiers.Orcid.Parse(typed) : null;
        return orcid is { Succeeded: false }
            ? Parsed<DossierChoice>.No(orcid.Reason)
            : Parsed<DossierChoice>.Of(
                this with
                {
                    Licence = licence?.Id,
                    Orcid = orcid?.Value,
                    By = string.IsNullOrWhiteSpace(By) ? null : By.Trim(),
                    Title = string.IsNullOrWhiteSpace(Title) ? null : Title.Trim(),
                }
            );
    }
}
