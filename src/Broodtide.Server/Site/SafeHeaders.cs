namespace Broodtide.Server.Site;

/// <summary>
/// What a browser may do with the pages: run and load what comes from here, and nothing else. The only exception
/// that WebAssembly needs is to compile its own modules.
/// </summary>
internal static class SafeHeaders
{
    public const string ContentPolicy =
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
        + "img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; "
        + "worker-src 'self'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    public const string Permissions =
        "camera=(self), screen-wake-lock=(self), microphone=(), geolocation=(), payment=(), usb=()";

    public static void UseSafeHeaders(this IApplicationBuilder app) =>
        app.Use(
            (context, next) =>
            {
                var headers = context.Response.Headers;
                headers.ContentSecurityPolicy = ContentPolicy;
                headers.XContentTypeOptions = "nosniff";
                headers["Referrer-Policy"] = "no-referrer";
                headers["Permissions-Policy"] = Permissions;
                headers["Cross-Origin-Opener-Policy"] = "same-origin";
                headers["Cross-Origin-Resource-Policy"] = "same-origin";
                return next(context);
            }
        );
}
