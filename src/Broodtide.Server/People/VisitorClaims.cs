using System.Security.Claims;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Server.People;

/// <summary>A visitor as the claims of the framework's identity, and back.</summary>
internal static class VisitorClaims
{
    private const string Person = "person";

    /// <summary>Who asks; none where nobody is signed in.</summary>
    public static Visitor? Visitor(this HttpContext context) => context.User.ToVisitor();

    /// <summary>The visitor of claims; none where nobody is signed in.</summary>
    public static Visitor? ToVisitor(this ClaimsPrincipal user) =>
        user is { Identity.IsAuthenticated: true }
        && Guid.TryParse(user.FindFirstValue(Person), out var person)
        && user.FindFirstValue(ClaimTypes.Name) is { } name
        && Enum.TryParse<Role>(user.FindFirstValue(ClaimTypes.Role), out var role)
            ? new Visitor(new PersonId(person), name, role)
            : null;

    /// <summary>The sign-in by which somebody comes; none where whoever is here was let in.</summary>
    public static Guid? SessionId(this HttpContext context) =>
        Guid.TryParse(context.User.FindFirstValue(SessionStore.SessionClaim), out var session)
            ? session
            : null;

    /// <summary>The claims of a visitor under a way of signing in.</summary>
    public static ClaimsPrincipal ToPrincipal(this Visitor visitor, string scheme) =>
        new(
            new ClaimsIdentity(
                [
                    new(Person, visitor.Person.ToString()),
                    new(ClaimTypes.Name, visitor.Name),
                    new(ClaimTypes.Role, visitor.Role.ToString()),
                ],
                scheme
            )
        );
}
