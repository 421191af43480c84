using Broodtide.Workbench.Sharing;

namespace Broodtide.Workbench.People;

/// <summary>The roles as they are written in files, commands and messages. Chosen by hand; they never change.</summary>
public static class RoleCodes
{
    /// <summary>The code of a role.</summary>
    /// <exception cref="ArgumentOutOfRangeException">No such role.</exception>
    public static string Code(this Role role) =>
        role switch
        {
            Role.Reader => "reader",
            Role.Helper => "helper",
            Role.Keeper => "keeper",
            Role.Owner => "owner",
            _ => throw new ArgumentOutOfRangeException(nameof(role), role, "No such role."),
        };

    /// <summary>The role of a code; none where there is no such role.</summary>
    public static Role? Parse(string? code) =>
        code switch
        {
            "reader" => Role.Reader,
            "helper" => Role.Helper,
            "keeper" => Role.Keeper,
            "owner" => Role.Owner,
            _ => null,
        };
}
