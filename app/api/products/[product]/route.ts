import { now } from '#services/clock'
import { productToAnswer } from '#services/openapi/product-answer'
import { changeProduct, readProduct } from '#services/shelf/products'
import { newProductIn } from '#services/shelf/schema'
import { readWorkshop } from '#services/workshop/workshop'
import { methods } from '../../_http/methods'
import { problem, refusalProblem } from '../../_http/problem'
import { readJson } from '../../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/products/[product]'>
>({
  GET: async (_request, { params }) => {
    const product = await readProduct((await params).product)
    return product === undefined
      ? problem(
          404,
          'There is no such product on the shelf. It may have been removed.',
        )
      : Response.json(productToAnswer(product))
  },
  PUT: async (request, { params }) => {
    const { currency } = await readWorkshop()
    const product = await readJson(request, newProductIn(currency))
    if (!product.ok) return product.refusal
    const { product: id } = await params
    const changed = await changeProduct(id, product.value, now())
    return changed.ok
      ? Response.json(productToAnswer(changed.value))
      : refusalProblem(changed.refusal)
  },
})
