using Broodtide.Server.Site;
using Broodtide.Workbench.People;
using Microsoft.AspNetCore.Antiforgery;

namespace Broodtide.Server.People;

/// <summary>
/// The framework's antiforgery over the whole of /api: whatever changes something carries a header that only a page of
/// this house can know. In one place, so that no endpoint is forgotten.
/// </summary>
internal static class Tokens
{
    public static void RequireTokens(this IApplicationBuilder app) =>
        app.Use(
            async (context, next) =>
            {
                if (
                    context.Request.Path.StartsWithSegments(PhoneSite.ApiPath, StringComparison.Ordinal)
                    && !HttpMethods.IsGet(context.Request.Method)
                    && !HttpMethods.IsHead(context.Request.Method)
                    && !(
                        // Without the header the framework would look for the word in a form, and read what a stranger sent.
                        context.Request.Headers.ContainsKey(PeopleAddresses.TokenHeader)
                        && await context
                            .RequestServices.GetRequiredService<IAntiforgery>()
                            .IsRequestValidAsync(context)
                    )
                )
                {
                    await context.RefuseAsync(StatusCodes.Status400BadRequest, "token-missing");
                    return;
                }

                await next(context);
            }
        );

    public static void Add(IServiceCollection services, bool isAllHttps) =>
        services.AddAntiforgery(antiforgery =>
        {
            antiforgery.HeaderName = PeopleAddresses.TokenHeader;
            antiforgery.FormFieldName = PeopleAddresses.TokenHeader;
            antiforgery.SuppressXFrameOptionsHeader = true;
            antiforgery.Cookie.Name = isAllHttps ? "__Host-broodtide-page" : "broodtide-page";
            antiforgery.Cookie.Path = "/";
            antiforgery.Cookie.HttpOnly = true;
            antiforgery.Cookie.SameSite = SameSiteMode.Strict;
            antiforgery.Cookie.SecurePolicy = isAllHttps
                ? CookieSecurePolicy.Always
                : CookieSecurePolicy.SameAsRequest;
        });
}
