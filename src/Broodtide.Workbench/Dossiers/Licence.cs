namespace Broodtide.Workbench.Dossiers;

/// <summary>A licence under which data may be given to others.</summary>
/// <param name="Id">Its identifier on the SPDX list.</param>
/// <param name="Title">Its full name.</param>
/// <param name="Address">Where its text stands.</param>
public sealed record Licence(string Id, string Title, string Address)
{
    /// <summary>
    /// Licences made for data, the freest first. Identifiers and addresses as on the SPDX licence list. None is chosen
    /// for a keeper.
    /// </summary>
    public static IReadOnlyList<Licence> All { get; } =
    [
        new(
            "CC0-1.0",
            "Creative Commons Zero v1.0 Universal",
            "https://creativecommons.org/publicdomain/zero/1.0/legalcode"
        ),
        new(
            "CC-BY-4.0",
            "Creative Commons Attribution 4.0 International",
            "https://creativecommons.org/licenses/by/4.0/legalcode"
        ),
        new(
            "CC-BY-SA-4.0",
            "Creative Commons Attribution Share Alike 4.0 International",
            "https://creativecommons.org/licenses/by-sa/4.0/legalcode"
        ),
        new(
            "CC-BY-NC-4.0",
            "Creative Commons Attribution Non Commercial 4.0 International",
            "https://creativecommons.org/licenses/by-nc/4.0/legalcode"
        ),
        new(
            "PDDL-1.0",
            "Open Data Commons Public Domain Dedication & License 1.0",
            "https://opendatacommons.org/licenses/pddl/1-0/"
        ),
        new(
            "ODC-By-1.0",
            "Open Data Commons Attribution License v1.0",
            "https://opendatacommons.org/licenses/by/1-0/"
        ),
        new(
            "ODbL-1.0",
            "Open Data Commons Open Database License v1.0",
            "https://opendatacommons.org/licenses/odbl/1-0/"
        ),
    ];

    /// <summary>The licence of an identifier, in any case of letters; none if it is not on the list.</summary>
    public static Licence? Find(string id) =>
        All.FirstOrDefault(licence => string.Equals(licence.Id, id, StringComparison.OrdinalIgnoreCase));
}
