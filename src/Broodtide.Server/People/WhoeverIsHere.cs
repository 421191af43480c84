using Broodtide.Workbench.Sharing;

namespace Broodtide.Server.People;

/// <summary>
/// Lets in whoever sits at this machine, as the owner of an invented house: there is nothing to keep from anybody.
/// </summary>
internal static class WhoeverIsHere
{
    private const string Scheme = "this-machine";

    // One and the same from start to start, so that a phone's store stays that person's.
    private static readonly Visitor Owner = new(
        new PersonId(new Guid("019ab5d0-5c00-7000-8000-000000000001")),
        "Keeper",
        Role.Owner
    );

    public static void LetInWhoeverIsHere(this IApplicationBuilder app) =>
        app.Use(
            (context, next) =>
            {
                context.User = Owner.ToPrincipal(Scheme);
                return next(context);
            }
        );
}
