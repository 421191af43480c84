using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Authorization;

namespace Broodtide.Server.People;

/// <summary>What a person must at least be for an endpoint, by the names that endpoints require.</summary>
internal static class Policies
{
    public const string Reader = "reader";
    public const string Helper = "helper";
    public const string Keeper = "keeper";
    public const string Owner = "owner";

    private static readonly string[] Writing = [GateRequest.Give, GateRequest.Bring];

    public static void AddPolicies(this IServiceCollection services) =>
        services
            .AddAuthorizationBuilder()
            .AddPolicy(Reader, AtLeast(Role.Reader))
            .AddPolicy(Helper, AtLeast(Role.Helper))
            .AddPolicy(Keeper, AtLeast(Role.Keeper))
            .AddPolicy(Owner, AtLeast(Role.Owner))
            // An endpoint that somebody forgot to guard opens to the owner alone.
            .SetFallbackPolicy(AtLeast(Role.Owner));

    /// <summary>Readers ask what is there; who gives something writes.</summary>
    public static RouteGroupBuilder RequireJournalPolicies(this RouteGroupBuilder journal)
    {
        journal.RequireAuthorization(Reader);
        ((IEndpointConventionBuilder)journal).Add(endpoint =>
        {
            var path = (endpoint as RouteEndpointBuilder)?.RoutePattern.RawText ?? "";
            if (Writing.Any(request => path.EndsWith("/" + request, StringComparison.Ordinal)))
            {
                endpoint.Metadata.Add(new AuthorizeAttribute(Helper));
            }
        });
        return journal;
    }

    private static AuthorizationPolicy AtLeast(Role least) =>
        new AuthorizationPolicyBuilder()
            .RequireAuthenticatedUser()
            .RequireRole(Enum.GetValues<Role>().Where(role => role >= least).Select(role => role.ToString()))
            .Build();
}
